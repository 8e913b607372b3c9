import { type Complex, complex, minus, times } from './complex.ts';
import { left, limited, outputError } from './slate.ts';
import type { Tone } from './tone.ts';

/** Two cosines at whole multiples of one frequency. */
export interface TonePair {
  /** The common part of both frequencies, of which both are multiples. */
  baseHz: number;
  tones: readonly [{ multiple: number; peakV: number }, { multiple: number; peakV: number }];
  /** Samples of the common period: high enough that nothing to speak of folds back. */
  points: number;
}

/** Highest order of the combinations that are kept. */
const highestOrder = 11;

/** Output of Slate at an idle current for two tones: their combinations, each with what the loop leaves of it. */
export function slateTwoTones(idleA: number, pair: TonePair): Tone {
  const { baseHz, tones, points } = pair;
  const wanted = Float64Array.from({ length: points }, (_, i) =>
    tones.reduce(
      (sum, { multiple, peakV }) => sum + peakV * Math.cos((2 * Math.PI * multiple * i) / points),
      0,
    ),
  );
  const swing = wanted.map(limited);
  const error = swing.map(outputError(idleA));
  const own = tones.map(({ multiple }) => multiple);
  const lines: Complex[] = Array.from({ length: points / 2 }, () => complex(0));
  for (const n of combinationsOf(own, points / 2)) {
    const lost = own.includes(n) ? complex(0) : times(lineOf(error, n), left(n * baseHz));
    lines[n] = minus(lineOf(swing, n), lost);
  }
  return { frequencyHz: baseHz, lines };
}

/** Multiples at which two tones make lines, the constant among them. */
function combinationsOf([first = 0, second = 0]: readonly number[], below: number): Set<number> {
  const found = new Set<number>();
  for (let a = -highestOrder; a <= highestOrder; a++) {
    for (let b = Math.abs(a) - highestOrder; b <= highestOrder - Math.abs(a); b++) {
      const n = Math.abs(a * first + b * second);
      if (n < below) found.add(n);
    }
  }
  return found;
}

function lineOf(period: Float64Array, order: number): Complex {
  let [re, im] = [0, 0];
  period.forEach((value, i) => {
    const angle = (2 * Math.PI * ((order * i) % period.length)) / period.length;
    re += value * Math.cos(angle);
    im -= value * Math.sin(angle);
  });
  const scale = (order === 0 ? 1 : 2) / period.length;
  return complex(re * scale, im * scale);
}
