import { fitLines, type LineFit } from '../fit/line-fit.ts';
import { projectWithMoments } from '../fit/projection.ts';
import { withoutLines } from '../fit/residual.ts';
import type { Combination } from './combinations.ts';

/** Angles of the lower and of the upper tone, radians per sample. */
export type AnglePair = readonly [number, number];

/** A constant and lines at exact combinations of two angles, which were refined together with them. */
export interface CombinationFit extends LineFit {
  angles: AnglePair;
}

const mostPasses = 20;
/** Change of phase over the record, radians at the highest order, that leaks into no neighbouring line. */
const settled = 1e-8;
/** A step of an angle beyond one cycle over the record has lost the line it started from. */
const lost = 2 * Math.PI;

/**
 * Fits a constant, lines at combinations of two angles, and the two angles themselves by least squares. The amplitudes
 * are solved for at each pair of angles; the angles then move down the exact gradient of what is left, with the
 * information that lines of many cycles have, until they rest. The lines must stay a cycle per record apart, from zero
 * and from half the rate. Null where a step leads away from the tones it started at.
 *
 * @source four-parameter sine fit of IEEE Std 1057 with further lines; amplitudes eliminated, and the gradient of what
 * then remains: G. H. Golub and V. Pereyra, SIAM J. Numer. Anal. 10:413 (1973); both from memory.
 */
export function fitCombinations(
  values: Float64Array,
  start: AnglePair,
  combinations: readonly Combination[],
): CombinationFit | null {
  const order = combinations.reduce(
    (most, { first, second }) => Math.max(most, Math.abs(first) + Math.abs(second)),
    1,
  );
  let angles = start;
  for (let pass = 1; pass <= mostPasses; pass++) {
    const fit = fitLines(values, anglesOf(combinations, angles));
    const step = stepOf(values, fit, combinations);
    const phase = Math.max(Math.abs(step[0]), Math.abs(step[1])) * values.length;
    if (!(phase <= lost)) return null;
    if (phase * order < settled || pass === mostPasses) return { ...fit, angles };
    angles = [angles[0] + step[0], angles[1] + step[1]];
    if (!areInside(anglesOf(combinations, angles))) return null;
  }
  return null;
}

const anglesOf = (combinations: readonly Combination[], [lower, upper]: AnglePair) =>
  combinations.map(({ first, second }) => first * lower + second * upper);

const areInside = (angles: readonly number[]) => angles.every((angle) => angle > 0 && angle < Math.PI);

/** Gradient and information of the two angles, and the step that they ask for. */
function stepOf(
  values: Float64Array,
  { constant, lines }: LineFit,
  combinations: readonly Combination[],
): [number, number] {
  const rest = withoutLines(values, constant, lines);
  const { length } = values;
  const perLine = (length * (length * length - 1)) / 24;
  let [slope1, slope2, own1, own2, shared] = [0, 0, 0, 0, 0];
  const projections = projectWithMoments(
    rest,
    lines.map(({ angle }) => angle),
  );
  lines.forEach(({ cosine, sine }, i) => {
    const { first = 0, second = 0 } = combinations[i] ?? {};
    const { sineMoment = 0, cosineMoment = 0 } = projections[i] ?? {};
    const slope = sine * cosineMoment - cosine * sineMoment;
    const information = (cosine * cosine + sine * sine) * perLine;
    slope1 += first * slope;
    slope2 += second * slope;
    own1 += first * first * information;
    own2 += second * second * information;
    shared += first * second * information;
  });
  const determinant = own1 * own2 - shared * shared;
  return [(own2 * slope1 - shared * slope2) / determinant, (own1 * slope2 - shared * slope1) / determinant];
}
