import type { Channel } from '../../src/signal/index.ts';

/** Uniform numbers in [0, 1) from a seed: mulberry32, a public-domain generator by Tommy Ettinger. */
export function uniform(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Normal deviates from a seed, by Box and Muller. */
export function normal(seed: number): () => number {
  const next = uniform(seed);
  return () => Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}

export interface Tone {
  /** Cycles per sample. */
  frequency: number;
  /** Peak amplitudes of orders 1, 2, …; phases of a cosine at the first sample, radians. */
  amplitudes: readonly number[];
  phases?: readonly number[];
  dc?: number;
}

/** Samples of a tone with harmonics. */
export function tone(length: number, { frequency, amplitudes, phases = [], dc = 0 }: Tone): Float64Array {
  return Float64Array.from({ length }, (_, n) =>
    amplitudes.reduce(
      (sum, amplitude, i) =>
        sum + amplitude * Math.cos(2 * Math.PI * (i + 1) * frequency * n + (phases[i] ?? 0)),
      dc,
    ),
  );
}

/** White noise of a standard deviation. */
export function whiteNoise(length: number, sigma: number, seed: number): Float64Array {
  const next = normal(seed);
  return Float64Array.from({ length }, () => sigma * next());
}

/**
 * Noise whose power density falls as 1/f, by adding first-order low-passes an octave and more apart.
 * `sigma` is the standard deviation of each of the eight parts.
 */
export function pinkNoise(length: number, sigma: number, seed: number): Float64Array {
  const next = normal(seed);
  const poles = Array.from({ length: 8 }, (_, i) => 1 - 0.6 / 3 ** i);
  const states = poles.map(() => next());
  return Float64Array.from({ length }, () => {
    let sum = 0;
    poles.forEach((pole, i) => {
      states[i] = pole * (states[i] ?? 0) + Math.sqrt(1 - pole * pole) * next();
      sum += states[i] ?? 0;
    });
    return sigma * sum;
  });
}

/** Noise of a first-order low-pass: flat below its corner, then falling as 1/f². `pole` is just below 1. */
export function redNoise(length: number, sigma: number, pole: number, seed: number): Float64Array {
  const next = normal(seed);
  let state = next();
  return Float64Array.from({ length }, () => {
    state = pole * state + Math.sqrt(1 - pole * pole) * next();
    return sigma * state;
  });
}

/** The sum of records of equal length. */
export function sum(...records: readonly Float64Array[]): Float64Array {
  const [first = new Float64Array()] = records;
  return first.map((_, n) => records.reduce((total, record) => total + (record[n] ?? 0), 0));
}

/** Rounds to whole steps. */
export function quantise(values: Float64Array, step: number): Float64Array {
  return values.map((value) => Math.round(value / step) * step);
}

/** Cuts off beyond ± a limit. */
export function clip(values: Float64Array, limit: number): Float64Array {
  return values.map((value) => Math.max(-limit, Math.min(limit, value)));
}

/** A channel in volts without a role. */
export function channel(values: Float64Array, name = 'out'): Channel {
  return { name, role: null, unit: 'V', values };
}
