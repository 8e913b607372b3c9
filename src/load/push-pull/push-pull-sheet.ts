import { leavesCurves, screenNotTraced } from '../device/device-messages.ts';
import { hasScreenCurrent } from '../device/traced-family.ts';
import { beyondZeroGrid, noDrive, noOperatingPoint, noPlateResistance } from '../messages.ts';
import { pairQuestion } from '../rules/pair-question.ts';
import { limitsOfTubes } from '../stage/limits.ts';
import { atRestRows, limitsWithSignal, ratingWarnings } from '../stage/limits-with-signal.ts';
import { loadsAround } from '../stage/sweep.ts';
import type { Absent, LimitRow, LoadFault, StageContext, StageResult } from '../types.ts';
import { withPairOutput } from './pair-output.ts';
import { pairCandidates, sweepPair } from './push-pull-candidates.ts';
import { type PairCycle, pairCycle } from './push-pull-cycle.ts';
import { pushPullDiagram } from './push-pull-diagram.ts';
import { pairDrive, pairDriveToZeroGrid } from './push-pull-drive.ts';
import { explainPair } from './push-pull-explanation.ts';
import { warmerTube } from './push-pull-heat.ts';
import { nothingSettles } from './push-pull-messages.ts';
import { pairAtLoad, pairByDrive } from './push-pull-signal.ts';
import { type ResolvedPair, resolvePair } from './push-pull-stage.ts';
import type { PushPullDescription, PushPullSheet } from './push-pull-types.ts';

type Found = Exclude<ResolvedPair, { faults: LoadFault[] }>;

/** The load sheet of a push-pull stage; paths of its problems lead from the stage. */
export function pushPullSheet(
  description: PushPullDescription,
  context: StageContext,
): StageResult<PushPullSheet> {
  const found = resolvePair(description, context);
  return 'faults' in found
    ? withPairOutput({ sheet: emptySheet(description), problems: found.faults }, description, null)
    : withPairOutput(sheetOf(description, found, context), description, found.pair);
}

const named = ({ id, topology, device, connection, count, curves }: PushPullDescription) => ({
  id,
  topology,
  device,
  connection,
  count: count ?? 1,
  curvesFrom: curves?.name ?? null,
});

function emptySheet(description: PushPullDescription): PushPullSheet {
  const reason = noOperatingPoint();
  const names = ['operatingPoint', 'atLoad', 'byDrive', 'warmest', 'candidates', 'sweep'];
  return {
    ...named(description),
    count: Number.isFinite(description.count ?? 1) ? (description.count ?? 1) : 0,
    modelSource: null,
    operatingPoint: null,
    limits: [],
    atLoad: null,
    byDrive: [],
    warmest: null,
    candidates: [],
    sweep: [],
    explanation: [],
    absent: Object.fromEntries(names.map((name) => [name, reason])),
  };
}

function sheetOf(
  description: PushPullDescription,
  found: Found,
  { tubes: library, sweepPoints }: StageContext,
): StageResult<PushPullSheet> {
  const { tubes, pair, loadOhm } = found;
  const { driveV } = description;
  const driven = pairDrive(pair, loadOhm, driveV);
  const atLoad = driven && pairAtLoad(pair, driven, tubes.count);
  const byDrive = driven && atLoad ? pairByDrive(pair, driven.cycle, tubes.count) : [];
  const warmest = byDrive.reduce<PushPullSheet['warmest']>(
    (most, row) => (most === null || row.tubePlateW > most.tubePlateW ? row : most),
    null,
  );
  const loads = loadsAround(loadOhm, { count: sweepPoints });
  const sweep = sweepPair(loads, { pair, describedV: driveV });
  const question = pairQuestion(description, found, { library, loads, sweep });
  const limits = limitsOf(description, found, { full: atLoad && driven.cycle, warmest });
  const figures = {
    ...named(description),
    modelSource: tubes.modelSource,
    operatingPoint: question.pairs.here.point,
    limits,
    atLoad,
    byDrive,
    warmest: warmest && { driveV: warmest.driveV, powerW: warmest.powerW, tubePlateW: warmest.tubePlateW },
    candidates: pairCandidates(question),
    sweep,
  };
  return {
    sheet: {
      ...figures,
      explanation: explainPair(figures, description),
      absent: absentOf(figures, found, driveV),
    },
    problems: warningsOf(description, found, limits),
    diagram: () => driven && pushPullDiagram(pair, driven.cycle),
  };
}

/** The warmer side at rest, at full drive, and where its plates dissipate most if that is somewhere else. */
function limitsOf(
  { bias }: PushPullDescription,
  { tubes, pair, loadOhm }: Found,
  { full, warmest }: { full: PairCycle | null; warmest: { driveV: number } | null },
): LimitRow[] {
  const rest = atRestRows(limitsOfTubes(tubes, { device: pair.sides[0], rest: pair.rest }, bias.kind));
  if (!full || !warmest) return rest;
  const rows = (cycle: PairCycle | null, when: 'at full drive' | 'at its largest') =>
    cycle ? limitsWithSignal(tubes, warmerTube(pair, cycle, tubes.count), { bias: bias.kind, when }) : [];
  const atFull = rows(full, 'at full drive');
  const largest = rows(pairCycle(pair, loadOhm, warmest.driveV, full), 'at its largest').slice(0, 1);
  const between = warmest.driveV < full.driveV && isAbove(largest[0], rest[0]);
  return [...rest, ...atFull, ...(between ? largest : [])];
}

const isAbove = (row: LimitRow | undefined, other: LimitRow | undefined) =>
  (row?.value ?? 0) > (other?.value ?? 0);

function absentOf(
  { operatingPoint, atLoad, sweep }: Pick<PushPullSheet, 'operatingPoint' | 'atLoad' | 'sweep'>,
  { pair, tubes: { curves, separateScreen } }: Found,
  driveV: number | null,
): Absent {
  const ofCurves = curves && driveV !== null ? leavesCurves(driveV) : nothingSettles();
  const reason = pair.rest.gridV < 0 ? ofCurves : noDrive();
  return {
    ...(operatingPoint?.rpOhm === null ? { rpOhm: noPlateResistance(), mu: noPlateResistance() } : {}),
    ...(atLoad === null ? { atLoad: reason, byDrive: reason, warmest: reason } : {}),
    ...(sweep.length === 0 ? { sweep: reason } : {}),
    ...(curves && separateScreen && !hasScreenCurrent(curves) ? { screenA: screenNotTraced() } : {}),
  };
}

function warningsOf(
  { device, driveV }: PushPullDescription,
  { pair, loadOhm }: Found,
  limits: readonly LimitRow[],
): LoadFault[] {
  const warnings = ratingWarnings(device, limits);
  const zeroGridV = driveV === null ? null : pairDriveToZeroGrid(pair, loadOhm);
  if (driveV !== null && zeroGridV !== null && driveV > zeroGridV) {
    warnings.push(beyondZeroGrid(driveV, zeroGridV));
  }
  return warnings;
}
