import type { SweepCurve } from './sweep-reading.ts';

/** How far the readings of a curve scatter about its own course. */
export interface CurveScatter {
  /** Standard deviation of the logarithm of each reading. */
  relative: Float64Array;
  /** Degrees of freedom behind it, a whole number; 0 where the curve has too few readings to tell. */
  freedom: number;
}

const leastReadings = 9;
/** Readings that a residual is made of. */
const width = 4;
/** Residuals around a reading whose scatter counts for it. */
const near = 6;
/** Share of the smallest squares that decides what is usual, their mean in units of the variance, and its efficiency. */
const kept = { share: 0.8, mean: 0.4377, efficiency: 0.63 };
/** By how much twice the logarithm of the likelihood must rise for a constant part: chance alone does so in 1.4 %. */
const clearly = 6;
/** Squares of neighbouring residuals depend on each other, so that n of them count as this share of n. */
const independent = 0.433;

/**
 * Scatter of a curve of ratios above zero, from how far four neighbouring readings at a time lie off any parabola on
 * logarithmic axes. What is usual over the whole curve is a floor everywhere: a share of the reading, and where that fits
 * clearly better a constant part besides, as noise adds to small readings. It is taken from the smaller four fifths of the
 * squares, so that a knee does not raise it; where the neighbourhood scatters more, it counts. A sharp bend counts as
 * scatter, and so does the step that the readings show they are rounded to.
 * @source variance from differences that a polynomial leaves at nothing: H. Dette, A. Munk, T. Wagner, J. Roy. Statist.
 * Soc. B 60:751 (1998); a part in proportion and a constant one: D. M. Rocke, S. Lorenzato, Technometrics 37:176 (1995);
 * which of the two: S. S. Wilks, Ann. Math. Statist. 9:60 (1938); all from memory. Trimmed mean and degrees of
 * freedom derived for normal scatter and even steps.
 */
export function scatterOf({ axis, values }: SweepCurve): CurveScatter {
  const residuals = residualsOf(axis.map(Math.log), values);
  const { constant, square } = usualNoise(residuals, values);
  const scaled = residuals.map((residual) => residual.square / growthOf(residual, constant));
  const step = stepOf(values);
  const relative = values.map((value, i) => {
    const around = scaled.slice(Math.max(0, i - width), Math.max(0, i - width + near));
    const variance = Math.max(square, meanOf(around)) * (1 + (constant / value) ** 2);
    return Math.hypot(Math.sqrt(variance), step / Math.sqrt(12) / value);
  });
  const freedom = Math.floor(kept.efficiency * independent * residuals.length) - (constant > 0 ? 1 : 0);
  return { relative, freedom: values.length < leastReadings ? 0 : freedom };
}

/** A third divided difference, scaled so that its square has the variance of one reading as its mean. */
interface Residual {
  square: number;
  /** Mean of one over the square of its readings, by their shares in it. */
  inverse: number;
}

function residualsOf(places: Float64Array, values: Float64Array): Residual[] {
  return Array.from({ length: Math.max(0, places.length - width + 1) }, (_, i) => {
    const at = places.subarray(i, i + width);
    const readings = values.subarray(i, i + width);
    const weights = at.map((here, j) =>
      at.reduce((product, other, k) => (k === j ? product : product / (here - other)), 1),
    );
    const total = (term: (weight: number, reading: number) => number) =>
      weights.reduce((sum, weight, j) => sum + term(weight, readings[j] ?? 1), 0);
    const whole = total((weight) => weight ** 2);
    return {
      square: total((weight, reading) => weight * Math.log(reading)) ** 2 / whole,
      inverse: total((weight, reading) => (weight / reading) ** 2) / whole,
    };
  });
}

/** How much larger the variance of a residual is with a constant part, of so many times the part in proportion. */
const growthOf = ({ inverse }: Residual, constant: number): number => 1 + constant ** 2 * inverse;

/** The constant part over the one in proportion, and the square of the latter; no constant part unless that fits better. */
function usualNoise(
  residuals: readonly Residual[],
  values: Float64Array,
): { constant: number; square: number } {
  const tried = [0, ...levelsOf(values)].map((constant) => {
    const growths = residuals.map((residual) => growthOf(residual, constant));
    const square = usualSquare(residuals.map((residual, i) => residual.square / (growths[i] ?? 1)));
    const deviance =
      residuals.length * Math.log(square) + growths.reduce((sum, one) => sum + Math.log(one), 0);
    return { constant, square, criterion: deviance + (constant > 0 ? clearly : 0) };
  });
  const [plain, ...others] = tried;
  if (!plain || !(plain.square > 0)) return { constant: 0, square: 0 };
  return others.reduce((best, one) => (one.criterion < best.criterion ? one : best), plain);
}

/** Two dozen levels from below the smallest to the largest reading. */
function levelsOf(values: Float64Array): number[] {
  const [low, high] = [Math.min(...values) / 2, Math.max(...values)];
  return Array.from({ length: 24 }, (_, i) => low * (high / low) ** (i / 23));
}

function usualSquare(squares: readonly number[]): number {
  const smallest = squares.toSorted((a, b) => a - b).slice(0, Math.ceil(kept.share * squares.length));
  return meanOf(smallest) / kept.mean;
}

const meanOf = (values: readonly number[]): number =>
  values.length === 0 ? 0 : values.reduce((sum, value) => sum + value, 0) / values.length;

/** The decimal step that values which differ are multiples of; 0 where there is none down to a thousand-millionth. */
function stepOf(values: Float64Array): number {
  if (values.every((value) => value === values[0])) return 0;
  for (let decimals = 0; decimals <= 9; decimals++) {
    const isMultiple = (value: number) =>
      Math.abs(value * 10 ** decimals - Math.round(value * 10 ** decimals)) < 1e-6;
    if (values.every(isMultiple)) return 10 ** -decimals;
  }
  return 0;
}
