import { type Complex, complex, magnitude, times } from './complex.ts';

/** Harmonic orders kept; with `points` samples to a period nothing below order `points - orders` folds back. */
const orders = 24;
const points = 128;

/** A periodic signal: the constant and the peak phasors of the orders 1 to 24, as Σ Re(line · e^(jn2πft)). */
export interface Tone {
  frequencyHz: number;
  lines: readonly Complex[];
}

const cosines = Float64Array.from({ length: points }, (_, i) => Math.cos((2 * Math.PI * i) / points));
const cosineAt = (step: number) => cosines[step % points] ?? 0;
const sineAt = (step: number) => cosines[(step + points - points / 4) % points] ?? 0;

/** A pure cosine of peak value `peak`. */
export function cosineTone(frequencyHz: number, peak: number): Tone {
  return { frequencyHz, lines: Array.from({ length: orders + 1 }, (_, n) => complex(n === 1 ? peak : 0)) };
}

/** The values of one period, equally spaced. */
export function periodOf(tone: Tone): Float64Array {
  return Float64Array.from({ length: points }, (_, i) =>
    tone.lines.reduce((sum, { re, im }, n) => sum + re * cosineAt(n * i) - im * sineAt(n * i), 0),
  );
}

/** The tone whose period has the given equally spaced values. */
export function toneOf(frequencyHz: number, period: Float64Array): Tone {
  return { frequencyHz, lines: Array.from({ length: orders + 1 }, (_, n) => lineOf(period, n)) };
}

function lineOf(period: Float64Array, order: number): Complex {
  let re = 0;
  let im = 0;
  period.forEach((value, i) => {
    re += value * cosineAt(order * i);
    im -= value * sineAt(order * i);
  });
  const scale = (order === 0 ? 1 : 2) / points;
  return complex(re * scale, im * scale);
}

/** Passes a tone through a law without memory. */
export function shaped(tone: Tone, law: (value: number) => number): Tone {
  return toneOf(tone.frequencyHz, periodOf(tone).map(law));
}

/** Passes a tone through a linear network given by its response at each frequency. */
export function filtered(tone: Tone, response: (frequencyHz: number) => Complex): Tone {
  const lines = tone.lines.map((line, n) => times(line, response(n * tone.frequencyHz)));
  return { frequencyHz: tone.frequencyHz, lines };
}

/** Samples of a tone at `rateHz`, beginning `startS` after the crest of the stimulus. */
export function sampled(tone: Tone, count: number, rateHz: number, startS: number): Float64Array {
  const lines = tone.lines.map((line, n) => ({ ...line, n })).filter(({ re, im }) => re !== 0 || im !== 0);
  return Float64Array.from({ length: count }, (_, i) => {
    const angle = 2 * Math.PI * tone.frequencyHz * (startS + i / rateHz);
    return lines.reduce((sum, { re, im, n }) => sum + re * Math.cos(n * angle) - im * Math.sin(n * angle), 0);
  });
}

/** Rms value of one order of a tone. */
export function rmsOf(tone: Tone, order: number): number {
  return magnitude(tone.lines[order] ?? complex(0)) / Math.SQRT2;
}
