import { couplingFaults } from '../chain/coupling.ts';
import { screenResistorUnused, screenSupplyMissing, screenTwice } from '../chain/coupling-messages.ts';
import { compareMeasured } from '../device/measured.ts';
import { restOnDevice } from '../device/rest-on-device.ts';
import type { ScreenFeed } from '../device/screen-feed.ts';
import { stageDevice } from '../device/stage-device.ts';
import { outOfRange, plateMissing, plateResistorMissing, positiveGrid, screenMissing } from '../messages.ts';
import { tubeAimFaults } from '../rules/check-aims.ts';
import type {
  LoadFault,
  MeasuredComparison,
  RestingStage,
  StageContext,
  StageDevice,
  TubeLibrary,
  TubeStageDescription,
} from '../types.ts';
import { checkStage } from './check-description.ts';
import type { PlateFeed } from './operating-point.ts';

export interface ResolvedTubes {
  tubes: StageDevice;
  stage: RestingStage;
  measured: MeasuredComparison | null;
  /** Of what was measured; they stop nothing. */
  warnings: LoadFault[];
}

export type ResolvedStage = ResolvedTubes | { faults: LoadFault[] };

/**
 * A described stage with its tube looked up and its point of rest solved, or everything that stands in the
 * way. The amplifier's supply feeds a stage that states neither plate voltage nor a supply of its own.
 */
export function resolveStage(
  description: TubeStageDescription,
  { supply, tubes }: StageContext,
): ResolvedStage {
  const found = stageDevice(description, tubes);
  const faults = [
    ...checkStage(description),
    ...tubeAimFaults(description),
    ...contradictions(description),
    ...couplingFaults(description),
  ];
  if ('faults' in found) return { faults: [...found.faults, ...faults] };
  faults.push(...missing(description, found.device));
  const supplyV = description.supplyV ?? supply?.plateV ?? null;
  const feed = feedOf(description, supplyV);
  const screen = screenFeedOf(description, supplyV);
  if (screen === 'no supply') faults.push(screenSupplyMissing());
  if (feed === null) faults.push(plateMissing());
  if (feed === null || screen === 'no supply' || faults.length > 0) return { faults };
  return atRest(description, { device: found.device, feed, screen, library: tubes });
}

interface Found {
  device: StageDevice;
  feed: PlateFeed;
  screen: ScreenFeed | null;
  library: TubeLibrary;
}

function atRest(description: TubeStageDescription, { device, feed, screen, library }: Found): ResolvedStage {
  const { bias } = description;
  const first = restOnDevice(device, { feed, bias, screen });
  if ('fault' in first) return { faults: [first.fault] };
  const { comparison, faults: warnings } = description.measured
    ? compareMeasured(description.measured, device, { rest: first.rest, bias })
    : nothingMeasured;
  const again = comparison?.rescaled ? stageDevice(description, library, comparison.factor) : { device };
  if ('faults' in again) return again;
  const found = restOnDevice(again.device, { feed, bias, screen });
  if ('fault' in found) return { faults: [found.fault] };
  const cathode = bias.kind === 'cathode-resistor' ? { ohm: bias.ohm, bypassed: bias.bypassed } : null;
  const feedOhm = description.plateResistorOhm ?? 0;
  return { tubes: again.device, stage: { ...found, feedOhm, cathode }, measured: comparison, warnings };
}

const nothingMeasured = { comparison: null, faults: [] };

function feedOf(
  { plateV, plateResistorOhm }: TubeStageDescription,
  supplyV: number | null,
): PlateFeed | null {
  if (plateV !== null) return { kind: 'plate', plateV };
  return supplyV === null ? null : { kind: 'supply', supplyV, ohm: plateResistorOhm ?? 0 };
}

function screenFeedOf(
  { screenResistorOhm = null }: TubeStageDescription,
  supplyV: number | null,
): ScreenFeed | null | 'no supply' {
  if (screenResistorOhm === null) return null;
  return supplyV === null ? 'no supply' : { supplyV, ohm: screenResistorOhm };
}

function missing(
  { device, connection, screenV, screenResistorOhm = null, topology, plateResistorOhm }: TubeStageDescription,
  { separateScreen }: StageDevice,
): LoadFault[] {
  const faults: LoadFault[] = [];
  const ownSupply = separateScreen && connection === 'pentode';
  if (ownSupply && screenV === null && screenResistorOhm === null) faults.push(screenMissing(device));
  if (ownSupply && screenV !== null && screenResistorOhm !== null) faults.push(screenTwice());
  if (!ownSupply && screenResistorOhm !== null) faults.push(screenResistorUnused());
  if (topology === 'resistance-coupled' && !plateResistorOhm) faults.push(plateResistorMissing());
  return faults;
}

function contradictions({ bias, topology, loadOhm, plateResistorOhm }: TubeStageDescription): LoadFault[] {
  const faults: LoadFault[] = [];
  if (bias.kind === 'grid' && bias.gridV > 0) faults.push(positiveGrid(bias.gridV));
  const most = topology === 'resistance-coupled' ? plateResistorOhm : null;
  if (loadOhm !== null && most !== null && loadOhm > most) {
    faults.push(outOfRange(['load'], loadOhm, 'Ω', [0.1, most]));
  }
  return faults;
}

/** The load for signals: as stated, or the plate resistor with the next grid leak across it; null where unknown. */
export function signalLoad(description: TubeStageDescription): number | null {
  const { loadOhm, topology, plateResistorOhm, nextGridLeakOhm } = description;
  if (loadOhm !== null || topology === 'single-ended' || plateResistorOhm === null) return loadOhm;
  return nextGridLeakOhm === null ? plateResistorOhm : 1 / (1 / plateResistorOhm + 1 / nextGridLeakOhm);
}
