import type { Complex } from '../output/complex.ts';

/** Instants of a period of harmonic balance: as many as a resistive load's half period has, both ways. */
export const samples = 128;

const turn = (k: number) => (2 * Math.PI * k) / samples;
const cosines = Float64Array.from({ length: samples }, (_, k) => Math.cos(turn(k)));
const sines = Float64Array.from({ length: samples }, (_, k) => Math.sin(turn(k)));

/** Cosine of so many samples after the crest. */
export const cosineAt = (sample: number): number => cosines[sample] ?? 0;

/** Σ v·exp(−j·n·t) over the samples of a period, for n from 0 to `highest`. */
export function sumsOf(values: ArrayLike<number>, highest: number): Complex[] {
  const sums: Complex[] = [];
  for (let order = 0; order <= highest; order++) {
    let re = 0;
    let im = 0;
    for (let k = 0; k < samples; k++) {
      const value = values[k] ?? 0;
      const at = (order * k) % samples;
      re += value * (cosines[at] ?? 0);
      im -= value * (sines[at] ?? 0);
    }
    sums.push({ re, im });
  }
  return sums;
}

/** Phasors of a period's samples re its first sample, order 0 (the mean) to the highest. */
export const phasors = (values: ArrayLike<number>, highest: number): Complex[] =>
  sumsOf(values, highest).map(({ re, im }, order) => {
    const scale = (order === 0 ? 1 : 2) / samples;
    return { re: re * scale, im: im * scale };
  });

/** The samples of a period that some phasors, from order 1 up, make together. */
export function periodOf(orders: readonly Complex[]): Float64Array {
  const values = new Float64Array(samples);
  for (const [index, { re, im }] of orders.entries()) {
    for (let k = 0; k < samples; k++) {
      const at = ((index + 1) * k) % samples;
      values[k] = (values[k] ?? 0) + re * (cosines[at] ?? 0) - im * (sines[at] ?? 0);
    }
  }
  return values;
}
