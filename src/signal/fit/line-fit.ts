import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { sumOf } from '../statistics/statistics.ts';
import { type Projection, project } from './projection.ts';
import type { Line } from './residual.ts';
import { cosineSum } from './trigonometric-sums.ts';

/** A fitted line with the variance of either of its components for unit white noise: 2/N for many cycles. */
export interface FittedLine extends Line {
  unitVariance: number;
}

/** A constant and lines fitted to a record together. */
export interface LineFit {
  constant: number;
  lines: FittedLine[];
}

/**
 * Fits a constant and lines at known angles by linear least squares, all at once, so that near neighbours do not leak
 * into each other. The angles are in radians per sample, at least one cycle per record apart, from zero and from π.
 * Lines at `emptied` angles come first: an earlier fit has taken them off the values, so that nothing is left of these
 * in the direction of them, and what is fitted is by how much they change as the others join.
 *
 * @source linear least squares (IEEE Std 1057, three-parameter fit, from memory) with a pair of columns for each line.
 */
export function fitLines(
  values: Float64Array,
  others: readonly number[],
  emptied: readonly number[] = [],
): LineFit {
  const angles = [...emptied, ...others];
  const { even, odd } = blocks(values.length, angles);
  const projections = [...emptied.map(() => nothing), ...project(values, others)];
  const [constant = 0, ...cosines] = solved(even, [sumOf(values), ...projections.map(cosineOf)]);
  const sines = solved(odd, projections.map(sineOf));
  const [, ...evenVariances] = inverseDiagonal(even);
  const oddVariances = inverseDiagonal(odd);
  return {
    constant,
    lines: angles.map((angle, i) => ({
      angle,
      cosine: cosines[i] ?? 0,
      sine: sines[i] ?? 0,
      unitVariance: ((evenVariances[i] ?? 0) + (oddVariances[i] ?? 0)) / 2,
    })),
  };
}

const nothing: Projection = { cosine: 0, sine: 0 };
const cosineOf = ({ cosine }: Projection) => cosine;
const sineOf = ({ sine }: Projection) => sine;

/** Normal equations; the cosine block holds the constant as a line at angle 0, whose sine would be nothing. */
function blocks(length: number, angles: readonly number[]) {
  const own = [0, ...angles];
  const sum = (angle: number) => cosineSum(length, angle) / 2;
  const pairs = own.map((a) => own.map((b) => ({ apart: sum(Math.abs(a - b)), together: sum(a + b) })));
  const even = pairs.map((row) => row.map(({ apart, together }) => apart + together));
  const odd = pairs.slice(1).map((row) => row.slice(1).map(({ apart, together }) => apart - together));
  return {
    even: new CholeskyDecomposition(new Matrix(even)),
    odd: new CholeskyDecomposition(new Matrix(odd)),
  };
}

const solved = (block: CholeskyDecomposition, right: readonly number[]) =>
  block.solve(Matrix.columnVector([...right])).to1DArray();

function inverseDiagonal(block: CholeskyDecomposition): number[] {
  const size = block.lowerTriangularMatrix.rows;
  return block.solve(Matrix.eye(size)).diagonal();
}
