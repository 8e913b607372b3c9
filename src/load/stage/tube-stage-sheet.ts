import { couplingOf, explainCoupling } from '../chain/coupling.ts';
import { insideOf } from '../device/connections.ts';
import { explainEnd } from '../device/device-explanation.ts';
import { noComparison, noFit, screenNotTraced } from '../device/device-messages.ts';
import { modelAgainstCurves } from '../device/model-against-curves.ts';
import { plateDiagram } from '../device/plate-curves.ts';
import { smallSignal, voltageGain } from '../device/small-signal.ts';
import { hasScreenCurrent } from '../device/traced-family.ts';
import {
  beyondZeroGrid,
  loadMissing,
  noDrive,
  noGain,
  noOperatingPoint,
  noPlateResistance,
} from '../messages.ts';
import { candidateLoads } from '../rules/candidates.ts';
import { explainStage } from '../rules/explanation.ts';
import { tubeQuestion } from '../rules/tube-question.ts';
import type {
  Absent,
  LimitRow,
  LoadFault,
  OperatingPoint,
  RestingStage,
  SmallSignal,
  StageContext,
  StageDevice,
  StageGain,
  StageResult,
  TubeLibrary,
  TubeStageDescription,
  TubeStageSheet,
} from '../types.ts';
import { figuresAtLoad } from './at-load.ts';
import { driveToZeroGrid } from './drive-limit.ts';
import { gridLeakLimit } from './grid-leak-limit.ts';
import { limitsOfTubes } from './limits.ts';
import { atRestRows, ratingWarnings } from './limits-with-signal.ts';
import { type ResolvedTubes, resolveStage, signalLoad } from './resting-stage.ts';
import { loadsAround, sweepLoads } from './sweep.ts';
import { limitsAtDrive } from './tube-signal-limits.ts';
import { nothingOf } from './tube-stage-nothing.ts';
import { typedStageSheet } from './typed-stage-sheet.ts';

/** The sheet of a tube stage with the stage that it is computed from, where that has a point of rest. */
export interface TubeStageResult extends StageResult<TubeStageSheet> {
  stage?: RestingStage;
}

/** The load sheet of a tube with a load at its plate; paths of its problems lead from the stage. */
export function tubeStageSheet(description: TubeStageDescription, context: StageContext): TubeStageResult {
  const { smallSignal: typed } = description;
  if (typed) return typedStageSheet(description, typed);
  const resolved = resolveStage(description, context);
  return 'faults' in resolved
    ? { sheet: emptySheet(description), problems: resolved.faults }
    : sheetOf(description, resolved, context.tubes);
}

function emptySheet(description: TubeStageDescription): TubeStageSheet {
  const reason = noOperatingPoint();
  return {
    ...nothingOf(description),
    absent: { operatingPoint: reason, gain: reason, atLoad: reason, candidates: reason, sweep: reason },
  };
}

function sheetOf(
  description: TubeStageDescription,
  resolved: ResolvedTubes,
  library: TubeLibrary,
): TubeStageResult {
  const { tubes, stage, measured, warnings } = resolved;
  const { bias, topology, driveV } = description;
  const loadOhm = signalLoad(description);
  const small = smallSignal(stage.device, stage.rest);
  const coupling = couplingOf(description, small, loadOhm);
  const driven = figuresAtLoad(stage, loadOhm, driveV);
  const limits = [
    ...atRestRows(limitsOfTubes(tubes, stage, bias.kind)),
    ...(topology === 'resistance-coupled' || 'reason' in driven
      ? []
      : limitsAtDrive(tubes, stage, driven.cycle, bias.kind)),
    ...gridLeakLimit(tubes.rated, description),
  ];
  const loads = loadsOf(description, stage);
  const sweep = sweepLoads(stage, loads, driveV);
  const candidates =
    topology === 'single-ended'
      ? candidateLoads(tubeQuestion(description, resolved, { library, loads, sweep }))
      : [];
  const figures = {
    ...nothingOf(description),
    modelSource: tubes.modelSource,
    modelFit: modelAgainstCurves(description, library),
    measured,
    operatingPoint: operatingPoint(stage, small, tubes),
    limits,
    gain: gainOf(stage, small, loadOhm),
    coupling,
    atLoad: 'reason' in driven ? null : driven.at,
    candidates,
    sweep,
  };
  const absent = {
    ...absentOf(figures),
    ...absentOfCurves(figures, tubes),
    ...(description.measured && !measured ? { measured: noComparison(description.measured.plateA) } : {}),
    ...('reason' in driven ? { atLoad: driven.reason } : {}),
  };
  return {
    sheet: {
      ...figures,
      explanation: [
        ...explainStage(figures),
        ...('reason' in driven ? [] : explainEnd(stage, driven)),
        ...explainCoupling(coupling),
      ],
      absent,
    },
    problems: [...warnings, ...warningsOf(description, stage, { limits, loadOhm })],
    stage,
    diagram: () => plateDiagram(stage, tubes.curves, driven.cycle),
  };
}

/** Currents of the electrodes themselves; in triode connection of a pentode that of both together. */
function operatingPoint(
  { rest, device }: RestingStage,
  small: SmallSignal,
  { separateScreen, curves }: StageDevice,
): OperatingPoint {
  const { plateV, gridV } = rest;
  if (!separateScreen) return { plateV, plateA: rest.plateA, gridV, screenV: null, screenA: null, ...small };
  const { plateA, screenA, screenV } = insideOf(device, rest);
  const traced = !curves || hasScreenCurrent(curves);
  return { plateV, plateA, gridV, screenV, screenA: traced ? screenA : null, ...small };
}

function gainOf(
  { cathode }: RestingStage,
  { mu, rpOhm }: SmallSignal,
  loadOhm: number | null,
): StageGain | null {
  if (mu === null || rpOhm === null || loadOhm === null) return null;
  return voltageGain({ mu, rpOhm, loadOhm, cathodeOhm: cathode?.ohm ?? null });
}

/** Around the stage's own load, or around plate voltage over plate current where none is stated. */
function loadsOf(description: TubeStageDescription, { rest, feedOhm }: RestingStage): number[] {
  const middleOhm = signalLoad(description) ?? rest.plateV / rest.plateA;
  return description.topology === 'resistance-coupled'
    ? loadsAround(middleOhm, { mostOhm: feedOhm })
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

function absentOfCurves(
  { modelFit }: Pick<TubeStageSheet, 'modelFit'>,
  { curves, rated, separateScreen }: StageDevice,
): Absent {
  if (!curves) return {};
  return {
    ...(modelFit ? {} : { modelFit: noFit(rated.type) }),
    ...(separateScreen && !hasScreenCurrent(curves) ? { screenA: screenNotTraced() } : {}),
  };
}

function warningsOf(
  { device, driveV, loadOhm: statedOhm, topology }: TubeStageDescription,
  stage: RestingStage,
  { limits, loadOhm }: { limits: readonly LimitRow[]; loadOhm: number | null },
): LoadFault[] {
  const warnings = ratingWarnings(device, limits);
  if (statedOhm === null && topology === 'single-ended') warnings.push(loadMissing());
  const zeroGridV = loadOhm === null ? null : driveToZeroGrid(stage, loadOhm);
  if (driveV !== null && zeroGridV !== null && driveV > zeroGridV) {
    warnings.push(beyondZeroGrid(driveV, zeroGridV));
  }
  return warnings;
}
