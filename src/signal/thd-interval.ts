/** One fitted harmonic as the interval needs it, both re the fundamental. */
export interface NoisyHarmonic {
  ratio: number;
  /** Standard deviation of each of the harmonic's two components. */
  uncertainty: number;
}

export interface IntervalOptions {
  harmonics: readonly NoisyHarmonic[];
  /** Relative standard deviation of the fundamental's amplitude. */
  fundamentalUncertainty: number;
  /** Degrees of freedom behind the uncertainties together. */
  freedom: number;
}

/** Normal deviate with 2.5 % above it. */
const deviate = 1.959963984540054;
const halvings = 80;
/** A fundamental that stands clear of its noise has less; beyond a quarter no upper end would exist. */
const largestUncertainty = 0.2;

/**
 * 95 % interval for the true root sum of squares of harmonics that were measured in noise.
 *
 * The sum of squares Q of fitted harmonics is the true sum T² plus noise: a quadratic form in normal variables, each
 * harmonic giving u²·χ'²(2, c²/u²). Its first three cumulants at a supposed T² give a shifted chi-square, and the
 * interval holds every T² for which the observed Q lies between the 2.5 % and 97.5 % points. On noise alone the
 * lower end is exactly 0; Q may lie outside the interval, as noise has made it larger than T².
 * How T² is shared among the orders is taken from the harmonics less their noise. For the upper end an observed Q
 * below its median under noise alone counts as that median, so that luck cannot promise less distortion than the
 * noise allows to be seen.
 *
 * @source three-moment chi-square approximation: J. P. Imhof, Biometrika 48:419 (1961), after E. S. Pearson,
 * Biometrika 46:364 (1959); interval by inverting the test: Kendall and Stuart, The Advanced Theory of Statistics,
 * vol. 2, ch. 20; upper end: G. Cowan et al., "Power-constrained limits", arXiv:1105.3166 (2011); volumes and pages
 * from memory. Checked against the exact noncentral chi-square and by simulation in tests/signal.
 */
export function thdInterval(options: IntervalOptions): { low: number; high: number } {
  const model = noiseModel(options);
  const observed = options.harmonics.reduce((sum, { ratio }) => sum + ratio * ratio, 0);
  const atLeastMedian = Math.max(observed, quantile(model, 0, 0));
  return {
    low: Math.sqrt(supposed(model, observed, deviate)),
    high: Math.sqrt(supposed(model, atLeastMedian, -deviate)),
  };
}

/** What the cumulants of Q are made of; `shared` terms are multiplied by T². */
interface NoiseModel {
  mean: number;
  variance: number;
  sharedVariance: number;
  squaredVariance: number;
  third: number;
  sharedThird: number;
}

function noiseModel({ harmonics, fundamentalUncertainty, freedom }: IntervalOptions): NoiseModel {
  const shares = sharesOf(harmonics);
  const moment = (power: number) => harmonics.reduce((sum, { uncertainty }) => sum + uncertainty ** power, 0);
  const sharedMoment = (power: number) =>
    harmonics.reduce((sum, { uncertainty }, i) => sum + (shares[i] ?? 0) * uncertainty ** power, 0);
  return {
    mean: 2 * moment(2),
    variance: 4 * moment(4) + (2 / freedom) * (2 * moment(2)) ** 2,
    sharedVariance: 4 * sharedMoment(2),
    squaredVariance: 4 * Math.min(fundamentalUncertainty, largestUncertainty) ** 2,
    third: 16 * moment(6),
    sharedThird: 24 * sharedMoment(4),
  };
}

/** How the true sum is shared among the orders: each harmonic's square less its noise, or evenly by noise. */
function sharesOf(harmonics: readonly NoisyHarmonic[]): number[] {
  const beyondNoise = harmonics.map((h) => Math.max(0, h.ratio ** 2 - 2 * h.uncertainty ** 2));
  const total = beyondNoise.reduce((sum, value) => sum + value, 0);
  if (total > 0) return beyondNoise.map((value) => value / total);
  return harmonics.map(() => 1 / harmonics.length);
}

/**
 * The value that Q stays below with the probability of a normal deviate `z`, were the true sum of squares `square`.
 * @source cube-root normal approximation of chi-square: E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17:684
 * (1931), from memory.
 */
function quantile(model: NoiseModel, square: number, z: number): number {
  const variance = model.variance + square * model.sharedVariance + square * square * model.squaredVariance;
  if (variance === 0) return model.mean + square;
  const third = model.third + square * model.sharedThird;
  const freedom = (8 * variance ** 3) / third ** 2;
  const spread = 2 / (9 * freedom);
  const chiSquare = freedom * (1 - spread + z * Math.sqrt(spread)) ** 3;
  return model.mean + square + (chiSquare - freedom) * Math.sqrt(variance / (2 * freedom));
}

/** The true sum of squares for which the observed one is the value at deviate `z`; 0 where none is that small. */
function supposed(model: NoiseModel, observed: number, z: number): number {
  if (quantile(model, 0, z) >= observed) return 0;
  let below = 0;
  let above = observed;
  while (quantile(model, above, z) < observed) above *= 2;
  for (let i = 0; i < halvings; i++) {
    const middle = (below + above) / 2;
    if (quantile(model, middle, z) < observed) below = middle;
    else above = middle;
  }
  return above;
}
