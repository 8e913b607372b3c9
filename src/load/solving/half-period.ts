/** Steps of half a period; see tests for what they leave of error. */
export const halfSteps = 64;

/** Mean over the period of a value of its instants (trapezoid rule, the waveform being symmetric). */
export function meanOfHalf<Instant>(half: readonly Instant[], value: (instant: Instant) => number): number {
  const last = half.length - 1;
  return half.reduce((sum, instant, k) => sum + value(instant) * (k === 0 || k === last ? 0.5 : 1), 0) / last;
}

/** The same of the values themselves. */
export function meanOfWave(wave: readonly number[]): number {
  const last = wave.length - 1;
  let sum = ((wave[0] ?? 0) + (wave[last] ?? 0)) / 2;
  for (let k = 1; k < last; k++) sum += wave[k] ?? 0;
  return sum / last;
}

/** A value of a similar series, moved as the one before differs; without one what the last two lead to. */
export function guessOf(found: readonly number[], near: readonly number[] | undefined, k: number): number {
  if (k === 0) return near?.[0] ?? 0;
  const before = found[k - 1] ?? 0;
  if (near) return before + (near[k] ?? 0) - (near[k - 1] ?? 0);
  return k === 1 ? before : 2 * before - (found[k - 2] ?? 0);
}
