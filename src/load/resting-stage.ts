import { checkStage } from './check-description.ts';
import { deviceOf, hasSeparateScreen } from './device.ts';
import {
  noScreen,
  outOfRange,
  plateMissing,
  plateResistorMissing,
  positiveGrid,
  screenMissing,
  unknownDevice,
} from './messages.ts';
import { type PlateFeed, solveRest } from './operating-point.ts';
import type { LoadFault, RestingStage, StageContext, TubeStageDescription, TubeType } from './types.ts';

export type ResolvedStage = { tube: TubeType; stage: RestingStage } | { faults: LoadFault[] };

/**
 * A described stage with its tube looked up and its point of rest solved, or everything that stands in the
 * way. The amplifier's supply feeds a stage that states neither plate voltage nor a supply of its own.
 */
export function resolveStage(
  description: TubeStageDescription,
  { supply, tubes }: StageContext,
): ResolvedStage {
  const tube = Object.hasOwn(tubes, description.device) ? tubes[description.device] : undefined;
  if (!tube) return { faults: [unknownDevice(description.device, Object.keys(tubes))] };
  const faults = [...checkStage(description), ...missing(description, tube), ...contradictions(description)];
  const feed = feedOf(description, description.supplyV ?? supply?.plateV ?? null);
  if (feed === null) faults.push(plateMissing());
  if (feed === null || faults.length > 0) return { faults };
  return atRest(description, tube, feed);
}

function atRest(description: TubeStageDescription, tube: TubeType, feed: PlateFeed): ResolvedStage {
  const { bias, connection } = description;
  const device = deviceOf(tube, connection);
  const found = solveRest({ device, feed, screenV: description.screenV ?? 0, bias });
  if ('fault' in found) return { faults: [found.fault] };
  const cathode = bias.kind === 'cathode-resistor' ? { ohm: bias.ohm, bypassed: bias.bypassed } : null;
  const feedOhm = description.plateResistorOhm ?? 0;
  return { tube, stage: { device, rest: found.rest, feedOhm, cathode } };
}

function feedOf(
  { plateV, plateResistorOhm }: TubeStageDescription,
  supplyV: number | null,
): PlateFeed | null {
  if (plateV !== null) return { kind: 'plate', plateV };
  return supplyV === null ? null : { kind: 'supply', supplyV, ohm: plateResistorOhm ?? 0 };
}

function missing(description: TubeStageDescription, tube: TubeType): LoadFault[] {
  const { connection, device, screenV, topology, plateResistorOhm } = description;
  const faults: LoadFault[] = [];
  if (connection === 'pentode' && tube.construction === 'triode') faults.push(noScreen(device));
  if (hasSeparateScreen(tube, connection) && screenV === null) faults.push(screenMissing(device));
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
