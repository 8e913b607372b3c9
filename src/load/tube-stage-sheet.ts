import { quantityText } from '../quantity/index.ts';
import { candidateLoads } from './candidates.ts';
import { hasSeparateScreen } from './device.ts';
import { driveToZeroGrid } from './drive-limit.ts';
import { explainStage } from './explanation.ts';
import { driveFor, largeSignal } from './large-signal.ts';
import { limitsAtRest } from './limits.ts';
import {
  beyondZeroGrid,
  loadMissing,
  noDrive,
  noFundamental,
  noGain,
  noLoad,
  noOperatingPoint,
  noPlateResistance,
  overRating,
} from './messages.ts';
import { resolveStage, signalLoad } from './resting-stage.ts';
import { smallSignal, voltageGain } from './small-signal.ts';
import { loadsAround, sweepLoads } from './sweep.ts';
import type {
  Absent,
  AtLoad,
  LimitRow,
  LoadFault,
  OperatingPoint,
  RestingStage,
  SmallSignal,
  StageContext,
  StageGain,
  TubeStageDescription,
  TubeStageSheet,
  TubeType,
} from './types.ts';

interface TubeStageResult {
  sheet: TubeStageSheet;
  problems: LoadFault[];
}

/** The load sheet of a tube with a load at its plate; paths of its problems lead from the stage. */
export function tubeStageSheet(description: TubeStageDescription, context: StageContext): TubeStageResult {
  const resolved = resolveStage(description, context);
  return 'faults' in resolved
    ? { sheet: emptySheet(description), problems: resolved.faults }
    : sheetOf(description, resolved.tube, resolved.stage);
}

const named = ({ id, topology, device, connection }: TubeStageDescription) => ({
  id,
  topology,
  device,
  connection,
});

function emptySheet(description: TubeStageDescription): TubeStageSheet {
  const reason = noOperatingPoint();
  return {
    ...named(description),
    modelSource: null,
    operatingPoint: null,
    limits: [],
    gain: null,
    atLoad: null,
    candidates: [],
    sweep: [],
    explanation: [],
    absent: { operatingPoint: reason, gain: reason, atLoad: reason, candidates: reason, sweep: reason },
  };
}

function sheetOf(description: TubeStageDescription, tube: TubeType, stage: RestingStage): TubeStageResult {
  const { bias, connection, topology, driveV } = description;
  const loadOhm = signalLoad(description);
  const small = smallSignal(stage.device, stage.rest);
  const strapped = tube.construction === 'pentode' && connection === 'triode';
  const limits = limitsAtRest(tube, stage.rest, { bias: bias.kind, strapped });
  const at = figuresAtLoad(stage, loadOhm, driveV);
  const sweep = sweepLoads(stage, loadsOf(description, stage), driveV);
  const triode = !hasSeparateScreen(tube, connection);
  const candidates =
    topology === 'single-ended' ? candidateLoads({ stage, small, triode, sweep, describedV: driveV }) : [];
  const figures = {
    ...named(description),
    modelSource: tube.modelSource,
    operatingPoint: operatingPoint(stage, small, !triode),
    limits,
    gain: gainOf(stage, small, loadOhm),
    atLoad: 'reason' in at ? null : at,
    candidates,
    sweep,
  };
  const absent = {
    ...absentOf(figures),
    ...('reason' in at ? { atLoad: at.reason } : {}),
  };
  return {
    sheet: { ...figures, explanation: explainStage(figures), absent },
    problems: warningsOf(description, stage, { limits, loadOhm }),
  };
}

function operatingPoint({ rest }: RestingStage, small: SmallSignal, separateScreen: boolean): OperatingPoint {
  const { plateV, plateA, gridV, screenV, screenA } = rest;
  const screen = separateScreen ? { screenV, screenA } : { screenV: null, screenA: null };
  return { plateV, plateA, gridV, ...screen, ...small };
}

function gainOf(
  { cathode }: RestingStage,
  { mu, rpOhm }: SmallSignal,
  loadOhm: number | null,
): StageGain | null {
  if (mu === null || rpOhm === null || loadOhm === null) return null;
  return voltageGain({ mu, rpOhm, loadOhm, cathodeOhm: cathode?.ohm ?? null });
}

function figuresAtLoad(
  stage: RestingStage,
  loadOhm: number | null,
  describedV: number | null,
): AtLoad | { reason: string } {
  if (loadOhm === null) return { reason: noLoad() };
  const drive = driveFor(stage, loadOhm, describedV);
  if (drive === null) return { reason: noDrive() };
  return largeSignal(stage, loadOhm, drive) ?? { reason: noFundamental() };
}

/** Around the stage's own load, or around plate voltage over plate current where none is stated. */
function loadsOf(description: TubeStageDescription, { rest, feedOhm }: RestingStage): number[] {
  const middleOhm = signalLoad(description) ?? rest.plateV / rest.plateA;
  return description.topology === 'resistance-coupled'
    ? loadsAround(middleOhm, feedOhm)
    : loadsAround(middleOhm);
}

function absentOf({
  operatingPoint: point,
  gain,
  sweep,
}: Pick<TubeStageSheet, 'operatingPoint' | 'gain' | 'sweep'>): Absent {
  return {
    ...(point?.rpOhm === null ? { rpOhm: noPlateResistance(), mu: noPlateResistance() } : {}),
    ...(gain === null ? { gain: noGain() } : {}),
    ...(sweep.length === 0 ? { sweep: noDrive() } : {}),
  };
}

function warningsOf(
  { device, driveV, loadOhm: statedOhm, topology }: TubeStageDescription,
  stage: RestingStage,
  { limits, loadOhm }: { limits: readonly LimitRow[]; loadOhm: number | null },
): LoadFault[] {
  const warnings = limits.flatMap(({ over, name, value, limit, unit }) =>
    over && limit !== null
      ? [overRating(device, name, quantityText(value, unit), quantityText(limit, unit))]
      : [],
  );
  if (statedOhm === null && topology === 'single-ended') warnings.push(loadMissing());
  const zeroGridV = loadOhm === null ? null : driveToZeroGrid(stage, loadOhm);
  if (driveV !== null && zeroGridV !== null && driveV > zeroGridV) {
    warnings.push(beyondZeroGrid(driveV, zeroGridV));
  }
  return warnings;
}
