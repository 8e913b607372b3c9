import { insideOf } from '../device/connections.ts';
import { isKnown, settledDriveToEnd } from '../device/end-of-curves.ts';
import { meanOfHalf } from '../solving/half-period.ts';
import {
  cosineAmplitudes,
  harmonicRatios,
  ratioOf,
  totalDistortion,
} from '../solving/harmonics-of-period.ts';
import { InstantSolver } from '../solving/instant-solver.ts';
import { fiveOrdinates } from '../solving/ordinates.ts';
import { type StageCycle, settledCycle } from '../solving/settle.ts';
import type {
  AtLoad,
  ElectrodeCurrents,
  Harmonic,
  Instant,
  PowerBalance,
  RestingStage,
  SwingLimit,
} from '../types.ts';
import { driveLimit } from './drive-limit.ts';
import type { LoadLine } from './load-line.ts';

export interface Drive {
  driveV: number;
  limitedBy: SwingLimit;
}

/** The drive as described, or the largest undisturbed one; null where the bias leaves no swing. */
export function driveFor(stage: RestingStage, loadOhm: number, describedV: number | null): Drive | null {
  if (describedV !== null) return { driveV: describedV, limitedBy: 'drive' };
  const limit = driveLimit(stage, loadOhm);
  return limit && stage.device.margin ? insideCurves(stage, loadOhm, limit) : limit;
}

function insideCurves(stage: RestingStage, loadOhm: number, limit: Drive): Drive | null {
  const driveV = settledDriveToEnd(stage, loadOhm, limit.driveV);
  if (driveV === null) return null;
  return driveV === limit.driveV ? limit : { driveV, limitedBy: 'traced curves' };
}

/** The output of a steady cycle; the fundamental is the peak of the plate current. */
export interface StageSignal {
  cycle: StageCycle;
  fundamentalA: number;
  /** Into the load at the fundamental. */
  powerW: number;
  /** Orders 2 to 7. */
  harmonics: Harmonic[];
}

/**
 * The steady cycle of a stage with a sine of `driveV` peak in its grid circuit and a resistive load, rectification
 * included; a cycle that is `near` saves work. Null where nothing swings, or where the swing leaves what is known of
 * the device.
 * @source plate current solved along the load line at each phase; Fourier series of the result
 */
export function signalAt(
  stage: RestingStage,
  loadOhm: number,
  driveV: number,
  near: StageCycle | null = null,
): StageSignal | null {
  const cycle = settledCycle(stage, loadOhm, driveV, near);
  return cycle && signalOf(stage, cycle);
}

/** The output of a steady cycle; null where nothing swings, or where it leaves what is known of the device. */
export function signalOf(stage: RestingStage, cycle: StageCycle): StageSignal | null {
  if (!cycle.half.every((at) => isKnown(stage, at))) return null;
  const amplitudes = cosineAmplitudes(cycle.half.map(({ plateA }) => plateA));
  const harmonics = harmonicRatios(amplitudes);
  const fundamentalA = amplitudes[1] ?? 0;
  return (
    harmonics && { cycle, fundamentalA, harmonics, powerW: (fundamentalA ** 2 * cycle.line.loadOhm) / 2 }
  );
}

/**
 * A stage with a sine of `driveV` peak in its grid circuit and a resistive load: power, harmonics 2 to 7,
 * averages and extremes over one period. There is no grid current in it, so that beyond 0 V at the grid the figures
 * are those of a perfectly stiff driver. Null where nothing swings, or where the swing leaves what is known of the
 * device.
 */
export function largeSignal(stage: RestingStage, loadOhm: number, drive: Drive): AtLoad | null {
  const signal = signalAt(stage, loadOhm, drive.driveV);
  return signal && figuresOf(stage, drive, signal);
}

/** The figures of a driven stage. */
export function figuresOf(stage: RestingStage, drive: Drive, signal: StageSignal): AtLoad {
  const { cycle, fundamentalA, harmonics, powerW } = signal;
  const { line, half } = cycle;
  const { loadOhm } = line;
  const balance = balanceOf(stage, line, half);
  return {
    loadOhm,
    ...drive,
    powerW,
    harmonics,
    thdRatio: totalDistortion(harmonics.map(({ ratio }) => ratio)),
    efficiency: powerW / balance.supplyW,
    outputVrms: (Math.abs(fundamentalA) * loadOhm) / Math.SQRT2,
    ...averages(stage, half),
    ...extremes(half),
    balance,
    byFiveOrdinates: byFiveOrdinates(stage, line, drive.driveV),
  };
}

function balanceOf(stage: RestingStage, line: LoadLine, half: readonly Instant[]): PowerBalance {
  const { rest, feedOhm, cathode } = stage;
  const averageA = line.averagePlateA;
  const cathodeRestV = (cathode?.ohm ?? 0) * (rest.plateA + rest.screenA);
  return {
    supplyW: (rest.plateV + feedOhm * rest.plateA + cathodeRestV) * averageA,
    loadW: line.loadOhm * meanOfHalf(half, ({ plateA }) => (plateA - averageA) ** 2),
    plateW: meanOfHalf(half, ({ plateA, plateV }) => plateA * plateV),
    feedW: feedOhm * averageA ** 2,
    cathodeW: meanOfHalf(half, ({ plateA, cathodeRiseV }) => plateA * (cathodeRestV + cathodeRiseV)),
  };
}

type Averages = Pick<AtLoad, 'averagePlateA' | 'averageScreenA' | 'screenW'>;

/** Of the electrodes themselves; a screen strapped to the plate counts with it. */
function averages({ device }: RestingStage, half: readonly Instant[]): Averages {
  const past = meanOfHalf(half, ({ screenA }) => screenA);
  const averagePlateA = meanOfHalf(half, ({ plateA }) => plateA);
  if (past === 0) return { averagePlateA, averageScreenA: null, screenW: null };
  const own = (of: (inside: ElectrodeCurrents) => number) =>
    meanOfHalf(half, (at) => of(insideOf(device, at)));
  return {
    averagePlateA: own(({ plateA }) => plateA),
    averageScreenA: own(({ screenA }) => screenA),
    screenW: own(({ screenA, screenV }) => screenA * screenV),
  };
}

function extremes(half: readonly Instant[]) {
  const currents = half.map(({ plateA }) => plateA);
  const voltages = half.map(({ plateV }) => plateV);
  return {
    peakPlateA: Math.max(...currents),
    leastPlateA: Math.min(...currents),
    peakPlateV: Math.max(...voltages),
    leastPlateV: Math.min(...voltages),
  };
}

function byFiveOrdinates(stage: RestingStage, line: LoadLine, driveV: number): AtLoad['byFiveOrdinates'] {
  const along = new InstantSolver(stage, line);
  const current = (share: number) => along.at(share * driveV).plateA;
  const found = fiveOrdinates(current(1), current(0.5), current(0), current(-0.5), current(-1));
  const harmonics = harmonicRatios(found);
  if (harmonics === null) return null;
  return {
    secondRatio: ratioOf(harmonics, 2),
    thirdRatio: ratioOf(harmonics, 3),
    fourthRatio: ratioOf(harmonics, 4),
  };
}
