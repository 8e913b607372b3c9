import {
  summariseTwoTone,
  type TwoToneChannelSummary,
  type TwoToneOptions,
  type TwoToneSummary,
} from '../../src/signal/index.ts';
import { channel, whiteNoise } from './signals.ts';

/** Two tones in a record: cycles per sample, peak amplitudes, phases in radians. */
export interface TwoTones {
  length: number;
  frequencies: readonly [number, number];
  amplitudes: readonly [number, number];
  phases?: readonly [number, number];
}

/** Samples of two tones through a curve. */
export function twoTones(
  { length, frequencies, amplitudes, phases = [0.3, 1.1] }: TwoTones,
  curve: (value: number) => number = (value) => value,
): Float64Array {
  return Float64Array.from({ length }, (_, n) =>
    curve(
      amplitudes[0] * Math.cos(2 * Math.PI * frequencies[0] * n + phases[0]) +
        amplitudes[1] * Math.cos(2 * Math.PI * frequencies[1] * n + phases[1]),
    ),
  );
}

/** The polynomial of the published cases. */
export const gentle = (x: number) => x + 0.01 * x ** 2 + 0.001 * x ** 3;

/** The same record with white noise. */
export function noisy(values: Float64Array, sigma: number, seed: number): Float64Array {
  const noise = whiteNoise(values.length, sigma, seed);
  return values.map((value, n) => value + (noise[n] ?? 0));
}

/** Summary of one record at 192 kHz. */
export function summaryOf(values: Float64Array, options: TwoToneOptions = {}): TwoToneSummary {
  return summariseTwoTone([channel(values)], rateHz, options);
}

export const rateHz = 192_000;

/** The one channel of a summary. */
export function figuresOf(values: Float64Array, options: TwoToneOptions = {}): TwoToneChannelSummary {
  const [only] = summaryOf(values, options).channels;
  if (!only) throw new Error('no channel');
  return only;
}
