import { fitHarmonics } from '../fit/harmonic-fit.ts';
import { powerThreshold, rateOfEach } from '../record/detection.ts';
import { densityNear, type ResidualSpectrum } from './residual-density.ts';

export interface MainsSearch {
  /** What is left of the record without constant, fundamental and harmonics. */
  residual: Float64Array;
  spectrum: ResidualSpectrum;
  /** Cycles of the fundamental in the record; the record's length where there is none. */
  fundamental: number;
  /** Cycles of the mains in the record, were its frequency the nominal one. */
  nominal: number;
  /** Highest multiple looked at. */
  multiples: number;
}

/**
 * How far the mains may stand from its nominal frequency.
 * @source EN 50160: 50 Hz ± 1 % during 99.5 % of a year, from memory.
 */
const tolerance = 0.01;
/** Candidates for each cycle per record at the highest multiple. */
const perCycle = 4;
/** Probability that noise alone passes for the mains. */
const falseMains = 0.01;

/**
 * Cycles of the mains in a record: where, within one per cent of the nominal frequency, its multiples together stand
 * highest above the noise around them, refined by a least-squares fit of all of them at one frequency. Null where none
 * of them stands clear of the noise; the nominal frequency is then as good as any.
 *
 * @source the sum of periodogram ordinates over their noise is the likelihood ratio for lines at known multiples:
 * B. G. Quinn and P. J. Thomson, Biometrika 78:65 (1991), from memory.
 */
export function mainsCycles(search: MainsSearch): number | null {
  const { residual, nominal, multiples } = search;
  const best = bestCandidate(search);
  if (best === null) return null;
  const angle = (2 * Math.PI * best) / residual.length;
  const fit = fitHarmonics(residual, { angle, orders: multiples });
  const cycles = fit === null ? best : (fit.angle * residual.length) / (2 * Math.PI);
  return Math.abs(cycles - nominal) <= 2 * tolerance * nominal ? cycles : best;
}

/** The candidate with the highest sum; null where no single line of it exceeds what noise would give. */
function bestCandidate(search: MainsSearch): number | null {
  const { spectrum, nominal, multiples, fundamental } = search;
  const noises = orders(multiples).map((order) => densityNear(spectrum, order * nominal, fundamental));
  const heights = (cycles: number) =>
    noises.map(({ density }, i) => {
      const line = Math.round((i + 1) * cycles * spectrum.finePerCycle);
      return density > 0 ? (spectrum.fine[line] ?? 0) / density : 0;
    });
  const score = (cycles: number) => heights(cycles).reduce((sum, height) => sum + height, 0);
  const steps = Math.ceil(tolerance * nominal * multiples * perCycle);
  const candidates = Array.from(
    { length: 2 * steps + 1 },
    (_, i) => nominal * (1 + (tolerance * (i - steps)) / steps),
  );
  const best = candidates.reduce(
    (found, cycles) => {
      const height = score(cycles);
      return height > found.height ? { cycles, height } : found;
    },
    { cycles: nominal, height: score(nominal) },
  ).cycles;
  const falseAlarm = rateOfEach(falseMains, multiples * candidates.length);
  const clear = heights(best).some(
    (height, i) => height > powerThreshold(falseAlarm, noises[i]?.freedom ?? 1),
  );
  return clear ? best : null;
}

const orders = (highest: number) => Array.from({ length: highest }, (_, i) => i + 1);
