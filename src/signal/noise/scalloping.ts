import type { CosineWindow } from './windows.ts';

/**
 * Decibels that a sine loses under a window when its frequency lies so many cycles per record beside a line; negative
 * where it gains. Holds in the limit of long records.
 * @source Fourier transform of a cosine sum: a_k/2·[sinc(x − k) + sinc(x + k)] over k, re a_0.
 */
export function lossBesideLine({ coefficients, coherentGain }: CosineWindow, cycles: number): number {
  const sum = coefficients.reduce(
    (total, a, k) => total + (a / 2) * (sinc(cycles - k) + sinc(cycles + k)),
    0,
  );
  return -20 * Math.log10(Math.abs(sum) / coherentGain);
}

const sinc = (x: number) => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x));
