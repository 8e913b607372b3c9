import { meanOfHalf, meanOfWave } from '../solving/half-period.ts';
import { cosineAmplitudes, harmonicRatios, totalDistortion } from '../solving/harmonics-of-period.ts';
import { findRoot } from '../solving/solve.ts';
import type { Harmonic, PowerBalance, SwingLimit } from '../types.ts';
import { type PairCycle, type PairDrive, pairCycle } from './push-pull-cycle.ts';
import type { DrivenPair } from './push-pull-drive.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import type { AmplifierClass, DriveRow, PushPullAtLoad } from './push-pull-types.ts';

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

/** Null where nothing swings, or where the swing leaves what is known of the tubes. */
export function pairOutput({ waves, line, loadOhm, isKnown }: PairCycle): PairOutput | null {
  if (!isKnown) return null;
  const amplitudes = cosineAmplitudes(waves.halfV);
  const fundamentalV = amplitudes[1] ?? 0;
  // Without a mean the ratio to it says nothing of rounding: the mean of the plate voltage stands in.
  const [, ...orders] = amplitudes;
  const harmonics = harmonicRatios([line.plateV[0], ...orders]);
  return (
    harmonics && {
      fundamentalV,
      harmonics: harmonics.map((one) => (one.ratio < roundingBelow ? { ...one, ratio: 0, sign: 1 } : one)),
      powerW: (2 * fundamentalV ** 2) / loadOhm,
    }
  );
}

/**
 * A pair over a steady cycle: power, harmonics, averages and how the sides share the cycle. Null where nothing swings.
 * @source load voltage solved at each phase of a cycle; Fourier series of the result
 */
export function pairAtLoad(pair: PairAtRest, driven: DrivenPair, count: number): PushPullAtLoad | null {
  const output = pairOutput(driven.cycle);
  return output && figuresOf(pair, { ...driven, output, count });
}

function figuresOf(
  pair: PairAtRest,
  of: { cycle: PairCycle; limitedBy: SwingLimit; output: PairOutput; count: number },
): PushPullAtLoad {
  const { cycle, output, limitedBy, count } = of;
  const { loadOhm, plateA, cathodeRiseV, driveV } = cycle;
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
    ...extremes(cycle),
    tubePlateW: warmerSide(cycle) / count,
    balance,
  };
}

function balanceOf(pair: PairAtRest, cycle: PairCycle): PowerBalance {
  const { rest, feedOhm, cathodeOhm } = pair;
  const { waves, plateA, cathodeRiseV, loadOhm } = cycle;
  const cathodeV = 2 * cathodeOhm * (rest.plateA + rest.screenA) + cathodeRiseV;
  return {
    supplyW: supplyPower(pair, cycle),
    loadW: (4 * meanOfWave(waves.halfV.map((volts) => volts ** 2))) / loadOhm,
    plateW: sideHeat(cycle, 0) + sideHeat(cycle, 1),
    feedW: feedOhm * (plateA[0] ** 2 + plateA[1] ** 2),
    cathodeW: cathodeV * (plateA[0] + plateA[1]),
  };
}

/** Voltage to the supply's return times the current of both sides. */
function supplyPower({ rest, feedOhm, cathodeOhm }: PairAtRest, { plateA }: PairCycle): number {
  const cathodeRestV = 2 * cathodeOhm * (rest.plateA + rest.screenA);
  return (rest.plateV + feedOhm * rest.plateA + cathodeRestV) * (plateA[0] + plateA[1]);
}

function sideHeat({ waves, line }: PairCycle, index: 0 | 1): number {
  const sign = index === 0 ? -1 : 1;
  const meanV = line.plateV[index];
  return meanOfWave(waves.sideA[index].map((plateA, k) => plateA * (meanV + sign * (waves.halfV[k] ?? 0))));
}

const warmerSide = (cycle: PairCycle) => Math.max(sideHeat(cycle, 0), sideHeat(cycle, 1));

function averageScreen({ half }: PairCycle): number | null {
  const mean = meanOfHalf(half, ({ sides: [a, b] }) => a.screenA + b.screenA);
  return mean > 0 ? mean : null;
}

function extremes({ waves: { halfV, sideA }, line: { plateV } }: PairCycle) {
  const [highest, lowest] = [Math.max(...halfV), Math.min(...halfV)];
  return {
    peakPlateA: Math.max(...sideA[0], ...sideA[1]),
    peakPlateV: Math.max(plateV[0] - lowest, plateV[1] + highest),
    leastPlateV: Math.min(plateV[0] - highest, plateV[1] + lowest),
  };
}

const classOf = (cutOffShare: number): AmplifierClass =>
  cutOffShare === 0 ? 'A' : cutOffShare < classBFrom ? 'AB' : 'B';

/** Share of the cycle in which a side carries less than a hundredth of its crest; of the side with more of it. */
const shareInCutOff = ({ waves: { sideA } }: PairCycle) =>
  Math.max(...sideA.map((wave) => shareBelow(wave, cutOffBelow * Math.max(...wave))));

/** Share of half a period below a level, with crossings between two instants interpolated. */
function shareBelow(values: readonly number[], level: number): number {
  let share = 0;
  for (let k = 1; k < values.length; k++) {
    const [left = 0, right = 0] = [values[k - 1], values[k]];
    const crossed = left < level !== right < level;
    const below = left < level ? 1 : 0;
    share += crossed ? (level - Math.min(left, right)) / Math.abs(right - left) : below;
  }
  return share / (values.length - 1);
}

/** Above 0 while both sides conduct throughout. */
const conduction = ({ waves: { sideA } }: PairCycle) =>
  Math.min(...sideA.map((wave) => Math.min(...wave) - cutOffBelow * Math.max(...wave)));

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
  { loadOhm, driveV }: Pick<PairCycle, 'loadOhm' | 'driveV'>,
  count: number,
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
    efficiency: powerW / supplyPower(pair, cycle),
    averagePlateA: cycle.plateA[0] + cycle.plateA[1],
    tubePlateW: warmerSide(cycle) / count,
    cutOffShare: shareInCutOff(cycle),
  };
}
