import { instantAt, type LoadLine } from './load-line.ts';
import { findRoot, firstNegative } from './solve.ts';
import type { Instant, RestingStage } from './types.ts';

/** Steps of half a period; see tests for what they leave of error. */
const steps = 64;
/** Relative tolerance of the averages; powers then balance to a millionth. */
const settled = 1e-8;

/** Instants of half a period of a cosine drive, from its crest to its trough, evenly spaced in phase. */
export function halfPeriod(stage: RestingStage, line: LoadLine, driveV: number): Instant[] {
  return Array.from({ length: steps + 1 }, (_, k) =>
    instantAt(stage, line, driveV * Math.cos((Math.PI * k) / steps)),
  );
}

/** Mean over the period of a value of its instants (trapezoid rule, the waveform being symmetric). */
export function meanOf(half: readonly Instant[], value: (instant: Instant) => number): number {
  const last = half.length - 1;
  const total = half.reduce((sum, instant, k) => sum + value(instant) * (k === 0 || k === last ? 0.5 : 1), 0);
  return total / last;
}

/**
 * The load line once a steady drive has shifted the averages. Even harmonics raise or lower the average
 * plate current; that moves the plate's mean voltage through the feed resistance and, with a bypassed
 * cathode resistor, the bias. Both are solved until currents and voltages agree.
 * @source mean values of the period; rectification by the curved characteristic
 */
export function settledLine(stage: RestingStage, loadOhm: number, driveV: number): LoadLine {
  const drive = { loadOhm, driveV };
  const first = settledCurrent(stage, drive, 0);
  const screenOf = (line: LoadLine) => meanOf(halfPeriod(stage, line, driveV), ({ screenA }) => screenA);
  const high = stage.cathode?.bypassed ? screenOf(first) : 0;
  if (high === 0) return first;
  const excess = (screenA: number) => screenOf(settledCurrent(stage, drive, screenA)) - screenA;
  const screenA = findRoot(excess, { low: 0, high }, settled);
  return screenA === null ? first : settledCurrent(stage, drive, screenA);
}

/** The load line whose average plate current is the mean of the waveform it gives, for an average screen current. */
function settledCurrent(
  stage: RestingStage,
  { loadOhm, driveV }: { loadOhm: number; driveV: number },
  screenA: number,
): LoadLine {
  const { cathode, rest } = stage;
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  const lineAt = (averagePlateA: number) => {
    const cathodeRiseV = steadyOhm * (averagePlateA - rest.plateA + screenA - rest.screenA);
    return { loadOhm, averagePlateA, cathodeRiseV };
  };
  const excess = (averagePlateA: number) =>
    meanOf(halfPeriod(stage, lineAt(averagePlateA), driveV), ({ plateA }) => plateA) - averagePlateA;
  const high = firstNegative(excess, 2 * rest.plateA);
  const averagePlateA = high === null ? null : findRoot(excess, { low: 0, high }, settled);
  return lineAt(averagePlateA ?? rest.plateA);
}
