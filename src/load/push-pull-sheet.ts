import { limitsOfTubes } from './limits.ts';
import { atRestRows, limitsWithSignal, ratingWarnings } from './limits-with-signal.ts';
import { beyondZeroGrid, noDrive, noOperatingPoint, noPlateResistance } from './messages.ts';
import { type PairLoads, pairCandidates, sweepPair } from './push-pull-candidates.ts';
import { type PairCycle, pairCycle } from './push-pull-cycle.ts';
import { pairDriveToZeroGrid } from './push-pull-drive.ts';
import { explainPair } from './push-pull-explanation.ts';
import { warmerTube } from './push-pull-heat.ts';
import { nothingSettles } from './push-pull-messages.ts';
import { pairAtLoad, pairByDrive } from './push-pull-signal.ts';
import { type PairAtRest, type ResolvedPair, resolvePair } from './push-pull-stage.ts';
import { leastAtPower } from './push-pull-stated-power.ts';
import type { PushPullAtLoad, PushPullDescription, PushPullSheet } from './push-pull-types.ts';
import { printedFor } from './sheet-loads.ts';
import { smallSignal } from './small-signal.ts';
import { loadsAround } from './sweep.ts';
import type {
  Absent,
  LimitRow,
  LoadFault,
  OperatingPoint,
  StageContext,
  StageResult,
  TubeLibrary,
} from './types.ts';

type Found = Exclude<ResolvedPair, { faults: LoadFault[] }>;

/** The load sheet of a push-pull stage; paths of its problems lead from the stage. */
export function pushPullSheet(
  description: PushPullDescription,
  context: StageContext,
): StageResult<PushPullSheet> {
  const found = resolvePair(description, context);
  return 'faults' in found
    ? { sheet: emptySheet(description), problems: found.faults }
    : sheetOf(description, found, context.tubes);
}

const named = ({ id, topology, device, connection, count }: PushPullDescription) => ({
  id,
  topology,
  device,
  connection,
  count: count ?? 1,
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
  library: TubeLibrary,
): StageResult<PushPullSheet> {
  const { tubes, device, pair } = found;
  const { driveV, loadOhm, powerW } = description;
  const point = pointOf(found);
  const triode = !tubes.separateScreen;
  const loads: PairLoads = { pair, point, count: tubes.count, triode, describedV: driveV };
  const atLoad = pairAtLoad(pair, { loadOhm, driveV, count: tubes.count });
  const byDrive = atLoad ? pairByDrive(pair, { loadOhm, driveV: atLoad.driveV, count: tubes.count }) : [];
  const warmest = byDrive.reduce<PushPullSheet['warmest']>(
    (most, row) => (most === null || row.tubePlateW > most.tubePlateW ? row : most),
    null,
  );
  const range = loadsAround(loadOhm);
  const sweep = sweepPair(range, loads);
  const typical = printedFor(description, library);
  const limits = limitsOf(description, found, { atLoad, warmest });
  const figures = {
    ...named(description),
    modelSource: tubes.modelSource,
    operatingPoint: point,
    limits,
    atLoad,
    byDrive,
    warmest: warmest && { driveV: warmest.driveV, powerW: warmest.powerW, tubePlateW: warmest.tubePlateW },
    candidates: [
      ...pairCandidates(loads, { sweep, device, typical }),
      ...(powerW === null ? [] : [leastAtPower(pair, range, powerW)]),
    ],
    sweep,
  };
  return {
    sheet: { ...figures, explanation: explainPair(figures, description), absent: absentOf(figures, pair) },
    problems: warningsOf(description, pair, limits),
  };
}

/** Of one tube of a side. */
function pointOf({ tubes: { count, separateScreen }, device, pair: { rest } }: Found): OperatingPoint {
  const { gmS, rpOhm, mu } = smallSignal(device, rest);
  const screen = separateScreen
    ? { screenV: rest.screenV, screenA: rest.screenA / count }
    : { screenV: null, screenA: null };
  return {
    plateV: rest.plateV,
    plateA: rest.plateA / count,
    gridV: rest.gridV,
    ...screen,
    gmS: gmS / count,
    rpOhm: rpOhm === null ? null : rpOhm * count,
    mu,
  };
}

/** The warmer side at rest, at full drive, and where its plates dissipate most if that is somewhere else. */
function limitsOf(
  { bias, loadOhm }: PushPullDescription,
  { tubes, pair }: Found,
  { atLoad, warmest }: { atLoad: PushPullAtLoad | null; warmest: { driveV: number } | null },
): LimitRow[] {
  const rest = atRestRows(limitsOfTubes(tubes, { device: pair.sides[0], rest: pair.rest }, bias.kind));
  if (!atLoad || !warmest) return rest;
  const rows = (cycle: PairCycle | null, when: 'at full drive' | 'at its largest') =>
    cycle ? limitsWithSignal(tubes, warmerTube(pair, cycle, tubes.count), { bias: bias.kind, when }) : [];
  const full = rows(pairCycle(pair, loadOhm, atLoad.driveV), 'at full drive');
  const largest = rows(pairCycle(pair, loadOhm, warmest.driveV), 'at its largest').slice(0, 1);
  const between = warmest.driveV < atLoad.driveV && isAbove(largest[0], rest[0]);
  return [...rest, ...full, ...(between ? largest : [])];
}

const isAbove = (row: LimitRow | undefined, other: LimitRow | undefined) =>
  (row?.value ?? 0) > (other?.value ?? 0);

function absentOf(
  { operatingPoint, atLoad, sweep }: Pick<PushPullSheet, 'operatingPoint' | 'atLoad' | 'sweep'>,
  { rest }: PairAtRest,
): Absent {
  const reason = rest.gridV < 0 ? nothingSettles() : noDrive();
  return {
    ...(operatingPoint?.rpOhm === null ? { rpOhm: noPlateResistance(), mu: noPlateResistance() } : {}),
    ...(atLoad === null ? { atLoad: reason, byDrive: reason, warmest: reason } : {}),
    ...(sweep.length === 0 ? { sweep: reason } : {}),
  };
}

function warningsOf(
  { device, driveV, loadOhm }: PushPullDescription,
  pair: PairAtRest,
  limits: readonly LimitRow[],
): LoadFault[] {
  const warnings = ratingWarnings(device, limits);
  const zeroGridV = driveV === null ? null : pairDriveToZeroGrid(pair, loadOhm);
  if (driveV !== null && zeroGridV !== null && driveV > zeroGridV) {
    warnings.push(beyondZeroGrid(driveV, zeroGridV));
  }
  return warnings;
}
