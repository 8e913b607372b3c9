import { studentTwoSided95 } from './student.ts';

/** One fitted harmonic as the interval needs it, both re the fundamental. */
export interface NoisyHarmonic {
  ratio: number;
  /** Standard deviation of each of the harmonic's two components. */
  uncertainty: number;
  /** The part of it that is noise for certain and raises the sum of squares; all of it where left out. */
  sure?: number;
  /** Degrees of freedom behind the uncertainty; those behind all together where left out. */
  freedom?: number;
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
 * noise allows to be seen. A tone beside a harmonic may add to it or take off it, so the upper end takes nothing off Q
 * for it.
 *
 * @source three-moment chi-square approximation: J. P. Imhof, Biometrika 48:419 (1961), after E. S. Pearson,
 * Biometrika 46:364 (1959); interval by inverting the test: Kendall and Stuart, The Advanced Theory of Statistics,
 * vol. 2, ch. 20; upper end: G. Cowan et al., "Power-constrained limits", arXiv:1105.3166 (2011); volumes and pages
 * from memory. Checked against the exact noncentral chi-square and by simulation in tests/signal.
 */
export function thdInterval(options: IntervalOptions): { low: number; high: number } {
  const model = noiseModel(options);
  const observed = options.harmonics.reduce((sum, { ratio }) => sum + ratio * ratio, 0);
  const sure = options.harmonics.reduce((sum, { uncertainty, sure = uncertainty }) => sum + sure * sure, 0);
  const upper = { ...model, mean: 2 * sure };
  const atLeastMedian = Math.max(observed, quantile(model, 0, 0));
  return {
    low: Math.sqrt(supposed(model, observed, deviate)),
    high: Math.sqrt(supposed(upper, atLeastMedian, -deviate)),
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
  /** What stands for the deviate where noise alone makes Q, as the noise itself is an estimate. */
  ofNoise: number;
  /** What stands for it where the true sum is far above the noise. */
  ofSum: number;
}

function noiseModel({ harmonics, fundamentalUncertainty, freedom }: IntervalOptions): NoiseModel {
  const shares = sharesOf(harmonics);
  const moment = (power: number) => harmonics.reduce((sum, { uncertainty }) => sum + uncertainty ** power, 0);
  const sharedMoment = (power: number) =>
    harmonics.reduce((sum, { uncertainty }, i) => sum + (shares[i] ?? 0) * uncertainty ** power, 0);
  const [variance, third] = [4 * moment(4), 16 * moment(6)];
  return {
    mean: 2 * moment(2),
    variance,
    sharedVariance: 4 * sharedMoment(2),
    squaredVariance: 4 * Math.min(fundamentalUncertainty, largestUncertainty) ** 2,
    third,
    sharedThird: 24 * sharedMoment(4),
    ofNoise: third > 0 ? deviateOfRatio((8 * variance ** 3) / third ** 2, freedom) : deviate,
    ofSum: studentTwoSided95(sharedFreedom(harmonics, shares, freedom)),
  };
}

/** Fewer degrees of freedom have no such approximation. */
const fewestFreedom = 4;

/**
 * The normal deviate at which a chi-square of `own` degrees of freedom stands as high as it does at 1.96 when it is
 * divided by an estimate of `freedom` degrees of freedom: cube roots of both are taken for normal.
 * @source E. Paulson, Ann. Math. Statist. 13:233 (1942), from memory; tested against Fisher's F.
 */
function deviateOfRatio(own: number, freedom: number): number {
  const a = 2 / (9 * own);
  const b = 2 / (9 * Math.max(fewestFreedom, freedom));
  const root = Math.sqrt(a * (1 - b) ** 2 + b * (1 - a) ** 2 - deviate ** 2 * a * b);
  const cubeRoot = ((1 - a) * (1 - b) + deviate * root) / ((1 - b) ** 2 - deviate ** 2 * b);
  return (cubeRoot - (1 - a)) / Math.sqrt(a);
}

/** How the true sum is shared among the orders: each harmonic's square less its noise, or evenly by noise. */
function sharesOf(harmonics: readonly NoisyHarmonic[]): number[] {
  const beyondNoise = harmonics.map(({ ratio, uncertainty, sure = uncertainty }) =>
    Math.max(0, ratio * ratio - 2 * sure * sure),
  );
  const total = beyondNoise.reduce((sum, value) => sum + value, 0);
  if (total > 0) return beyondNoise.map((value) => value / total);
  return harmonics.map(() => 1 / harmonics.length);
}

/**
 * Degrees of freedom behind the variance of the harmonics that make up the true sum; those behind all lines at most.
 * @source Welch and Satterthwaite: JCGM 100:2008, G.4.1.
 */
function sharedFreedom(harmonics: readonly NoisyHarmonic[], shares: readonly number[], most: number): number {
  const parts = harmonics.map(({ uncertainty }, i) => (shares[i] ?? 0) * uncertainty ** 2);
  const whole = parts.reduce((sum, part) => sum + part, 0);
  const spread = harmonics.reduce((sum, { freedom = most }, i) => sum + (parts[i] ?? 0) ** 2 / freedom, 0);
  return spread > 0 ? Math.min(most, whole ** 2 / spread) : most;
}

/**
 * The value that Q stays below with the probability of a normal deviate `z`, were the true sum of squares `square`.
 * @source cube-root normal approximation of chi-square: E. B. Wilson and M. M. Hilferty, Proc. Natl. Acad. Sci. 17:684
 * (1931), from memory.
 */
function quantile(model: NoiseModel, square: number, z: number): number {
  const ofSum = square * model.sharedVariance + square * square * model.squaredVariance;
  const variance = model.variance + ofSum;
  if (variance === 0) return model.mean + square;
  const third = model.third + square * model.sharedThird;
  const freedom = (8 * variance ** 3) / third ** 2;
  const spread = 2 / (9 * freedom);
  const widened = Math.sqrt((model.variance * model.ofNoise ** 2 + ofSum * model.ofSum ** 2) / variance);
  const chiSquare = freedom * (1 - spread + (z / deviate) * widened * Math.sqrt(spread)) ** 3;
  return model.mean + square + (chiSquare - freedom) * Math.sqrt(variance / (2 * freedom));
}

/** The true sum of squares for which the observed one is the value at deviate `z`; 0 where none is that small. */
function supposed(model: NoiseModel, observed: number, z: number): number {
  if (quantile(model, 0, z) >= observed) return 0;
  let below = 0;
  let above = observed;
  while (quantile(model, above, z) < observed) above *= 2;
  for (;;) {
    const middle = (below + above) / 2;
    if (middle <= below || middle >= above) return above;
    if (quantile(model, middle, z) < observed) below = middle;
    else above = middle;
  }
}
