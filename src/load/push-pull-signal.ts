import { cosineAmplitudes, harmonicRatios, totalDistortion } from './harmonics-of-period.ts';
import { meanOfHalf, type PairCycle, type PairDrive, pairCycle } from './push-pull-cycle.ts';
import { pairDrive } from './push-pull-drive.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import type { AmplifierClass, DriveRow, PushPullAtLoad } from './push-pull-types.ts';
import { findRoot } from './solve.ts';
import type { Harmonic, PowerBalance, SwingLimit } from './types.ts';

/** A side counts as cut off below this share of its largest current in the cycle. */
const cutOffBelow = 0.01;
/** What is left of a harmonic below this ratio is the rounding of the solution. */
const roundingBelow = 1e-11;
/** From this share of the cycle in cut-off on the class is called B; the half of it is class B by definition. */
const classBFrom = 0.45;

/** The output of a steady cycle; the fundamental is the peak across each half of the primary. */
interface PairOutput {
  fundamentalV: number;
  powerW: number;
  harmonics: Harmonic[];
}

/** Null where nothing swings. */
export function pairOutput({ half, loadOhm }: PairCycle): PairOutput | null {
  const amplitudes = cosineAmplitudes(half.map(({ halfV }) => halfV));
  const fundamentalV = amplitudes[1] ?? 0;
  // Without a mean the ratio to it says nothing of rounding: the mean of the plate voltage stands in.
  const [, ...orders] = amplitudes;
  const harmonics = harmonicRatios([half[0]?.sides[0].plateV ?? 0, ...orders]);
  return (
    harmonics && {
      fundamentalV,
      harmonics: harmonics.map((one) => (one.ratio < roundingBelow ? { ...one, ratio: 0 } : one)),
      powerW: (2 * fundamentalV ** 2) / loadOhm,
    }
  );
}

/**
 * A pair at the described drive or the largest undisturbed one: power, harmonics, averages and how the sides
 * share the cycle. Null where nothing swings, or where bias and currents find no steady state.
 * @source load voltage solved at each phase of a cycle; Fourier series of the result
 */
export function pairAtLoad(
  pair: PairAtRest,
  of: { loadOhm: number; driveV: number | null; count: number },
): PushPullAtLoad | null {
  const found = pairDrive(pair, of.loadOhm, of.driveV);
  const output = found && pairOutput(found.cycle);
  return output && figuresOf(pair, { ...found, output, count: of.count });
}

function figuresOf(
  pair: PairAtRest,
  of: { cycle: PairCycle; limitedBy: SwingLimit; output: PairOutput; count: number },
): PushPullAtLoad {
  const { cycle, output, limitedBy, count } = of;
  const { loadOhm, half, plateA, cathodeRiseV, driveV } = cycle;
  const balance = balanceOf(pair, cycle);
  const cutOffShare = shareInCutOff(cycle);
  return {
    loadOhm,
    bothConductOhm: loadOhm / 2,
    oneConductsOhm: loadOhm / 4,
    driveV,
    limitedBy,
    class: classOf(cutOffShare),
    cutOffShare,
    classAPowerW: cutOffShare === 0 ? output.powerW : classAPower(pair, cycle),
    powerW: output.powerW,
    harmonics: output.harmonics,
    thdRatio: totalDistortion(output.harmonics.map(({ ratio }) => ratio)),
    efficiency: output.powerW / balance.supplyW,
    outputVrms: Math.SQRT2 * output.fundamentalV,
    halfPeakV: output.fundamentalV,
    averagePlateA: plateA[0] + plateA[1],
    averageScreenA: averageScreen(cycle),
    unbalanceA: plateA[0] - plateA[1],
    cathodeRiseV,
    ...extremes(half),
    tubePlateW: warmerSide(cycle) / count,
    balance,
  };
}

function balanceOf({ rest, feedOhm, cathodeOhm }: PairAtRest, cycle: PairCycle): PowerBalance {
  const { half, plateA, cathodeRiseV, loadOhm } = cycle;
  const bothA = plateA[0] + plateA[1];
  const cathodeV = 2 * cathodeOhm * (rest.plateA + rest.screenA) + cathodeRiseV;
  const toGroundV = rest.plateV + feedOhm * rest.plateA + cathodeV - cathodeRiseV;
  return {
    supplyW: toGroundV * bothA,
    loadW: (4 * meanOfHalf(half, ({ halfV }) => halfV ** 2)) / loadOhm,
    plateW: sideHeat(cycle, 0) + sideHeat(cycle, 1),
    feedW: feedOhm * (plateA[0] ** 2 + plateA[1] ** 2),
    cathodeW: cathodeV * bothA,
  };
}

const sideHeat = ({ half }: PairCycle, index: 0 | 1): number =>
  meanOfHalf(half, ({ sides }) => sides[index].plateA * sides[index].plateV);

const warmerSide = (cycle: PairCycle) => Math.max(sideHeat(cycle, 0), sideHeat(cycle, 1));

function averageScreen({ half }: PairCycle): number | null {
  const mean = meanOfHalf(half, ({ sides: [a, b] }) => a.screenA + b.screenA);
  return mean > 0 ? mean : null;
}

function extremes(half: PairCycle['half']) {
  const sides = half.flatMap((instant) => instant.sides);
  const voltages = sides.map(({ plateV }) => plateV);
  return {
    peakPlateA: Math.max(...sides.map(({ plateA }) => plateA)),
    peakPlateV: Math.max(...voltages),
    leastPlateV: Math.min(...voltages),
  };
}

const classOf = (cutOffShare: number): AmplifierClass =>
  cutOffShare === 0 ? 'A' : cutOffShare < classBFrom ? 'AB' : 'B';

/** Share of the cycle in which a side carries less than a hundredth of its crest; of the side with more of it. */
function shareInCutOff({ half }: PairCycle): number {
  const share = (index: 0 | 1) => {
    const currents = half.map(({ sides }) => sides[index].plateA);
    return shareBelow(currents, cutOffBelow * Math.max(...currents));
  };
  return Math.max(share(0), share(1));
}

/** Share of half a period below a level, with crossings between two instants interpolated. */
function shareBelow(values: readonly number[], level: number): number {
  const spans = values.slice(1).map((right, index) => {
    const left = values[index] ?? right;
    if (left < level === right < level) return left < level ? 1 : 0;
    const low = Math.min(left, right);
    return (level - low) / Math.abs(right - left);
  });
  return spans.reduce((sum, span) => sum + span, 0) / spans.length;
}

/** Above 0 while both sides conduct throughout. */
function conduction({ half }: PairCycle): number {
  const left = (index: 0 | 1) => {
    const currents = half.map(({ sides }) => sides[index].plateA);
    return Math.min(...currents) - cutOffBelow * Math.max(...currents);
  };
  return Math.min(left(0), left(1));
}

const driveTolerance = 1e-5;

/** Power at the drive at which a side is first cut off. */
function classAPower(pair: PairAtRest, full: PairCycle): number {
  const { loadOhm, driveV } = full;
  const at = (drive: PairDrive) => pairCycle(pair, loadOhm, drive, full);
  const left = (drive: number) => {
    const cycle = at(drive);
    return cycle ? conduction(cycle) : Number.NaN;
  };
  const edge = findRoot(left, { low: driveV * 1e-3, high: driveV }, driveTolerance);
  const cycle = edge === null ? null : at(edge);
  return (cycle && pairOutput(cycle)?.powerW) ?? 0;
}

const driveSteps = 24;

/** The pair at evenly spaced drives up to a full one; those without a steady state are left out. */
export function pairByDrive(
  pair: PairAtRest,
  { loadOhm, driveV, count }: { loadOhm: number; driveV: number; count: number },
): DriveRow[] {
  let near: PairCycle | null = null;
  return Array.from({ length: driveSteps }, (_, k) => (driveV * (k + 1)) / driveSteps).flatMap((drive) => {
    const cycle: PairCycle | null = pairCycle(pair, loadOhm, drive, near);
    near = cycle;
    const output = cycle && pairOutput(cycle);
    return output ? [driveRow(pair, cycle, output, count)] : [];
  });
}

function driveRow(
  pair: PairAtRest,
  cycle: PairCycle,
  { powerW, harmonics }: PairOutput,
  count: number,
): DriveRow {
  return {
    driveV: cycle.driveV,
    powerW,
    thdRatio: totalDistortion(harmonics.map(({ ratio }) => ratio)),
    efficiency: powerW / balanceOf(pair, cycle).supplyW,
    averagePlateA: cycle.plateA[0] + cycle.plateA[1],
    tubePlateW: warmerSide(cycle) / count,
    cutOffShare: shareInCutOff(cycle),
  };
}
