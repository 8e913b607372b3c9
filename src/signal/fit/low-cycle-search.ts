import { squaresOf, sumOf } from '../statistics/statistics.ts';
import { fitAtAngle } from './harmonic-fit.ts';
import { residual } from './residual.ts';

/** Few cycles need few samples: longer records are averaged down to this many before the search. */
const mostSamples = 512;
const lowestCycles = 0.5;
const highestCycles = 10;
const cyclesStep = 1 / 16;

/** A sine of few cycles and the share of the record's variations that it accounts for; the record must vary. */
export interface LowCycles {
  cycles: number;
  explained: number;
}

/**
 * The sine of 0.5 to 10 cycles per record that leaves the least of it. Below some eight cycles a line overlaps its
 * image and the constant in any spectrum; the fit keeps the three apart.
 *
 * @source least-squares spectrum with a floating mean: Zechmeister and Kürster, Astron. Astrophys. 496:577 (2009), from
 * memory.
 */
export function strongestLowCycles(values: Float64Array): LowCycles {
  const stretch = Math.ceil(values.length / mostSamples);
  const record = averaged(values, stretch);
  const highest = Math.min(highestCycles, record.length / 2.5);
  let best = lowestCycles;
  let least = Number.POSITIVE_INFINITY;
  for (let cycles = lowestCycles; cycles <= highest; cycles += cyclesStep) {
    const left = leftBySine(record, cycles);
    if (left >= least) continue;
    least = left;
    best = cycles;
  }
  const explained = (stretch * (variations(record) - least)) / variations(values);
  return { cycles: best, explained };
}

/** Sum of squares about the mean. */
function variations(values: Float64Array): number {
  return squaresOf(values, sumOf(values) / values.length);
}

function leftBySine(record: Float64Array, cycles: number): number {
  const angle = (2 * Math.PI * cycles) / record.length;
  const fit = fitAtAngle(record, { angle, orders: 1 });
  return fit === null ? Number.POSITIVE_INFINITY : squaresOf(residual(record, fit));
}

/** Means of equal stretches; a rest shorter than one stretch is left out, as it cannot move the search. */
function averaged(values: Float64Array, stretch: number): Float64Array {
  const means = new Float64Array(Math.floor(values.length / stretch));
  for (let i = 0; i < means.length; i++) {
    const part = values.subarray(i * stretch, (i + 1) * stretch);
    means[i] = part.reduce((sum, value) => sum + value, 0) / stretch;
  }
  return means;
}
