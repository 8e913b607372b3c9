import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import type { MomentProjection } from './projection.ts';
import { type TrigonometricSums, trigonometricSums } from './trigonometric-sums.ts';

/** Amplitudes of cosines and sines at multiples 1, 2, … of one angle; index 0 is the fundamental. */
export interface Amplitudes {
  constant: number;
  cosine: number[];
  sine: number[];
}

/** Solution of one linear step: amplitudes at the angle used, and the step of the angle that the data ask for. */
export interface LinearStep {
  amplitudes: Amplitudes;
  /** Radians per sample. */
  angleStep: number;
  /** The amplitudes once the angle has moved by `angleStep`, to first order. */
  moved: Amplitudes;
}

interface Blocks {
  even: CholeskyDecomposition;
  odd: CholeskyDecomposition;
}

interface Vectors {
  even: number[];
  odd: number[];
}

/**
 * One Gauss-Newton step of the fit of constant and harmonics whose angle is unknown as well. The amplitudes are
 * those of the linear fit at `angle`; the column for the angle is its derivative there.
 *
 * @source four-parameter algorithm of IEEE Std 1057, with the columns of further harmonics added and the amplitudes
 * eliminated first (Golub and Pereyra 1973, SIAM J. Numer. Anal. 10:413); both from memory.
 */
export function linearStep(
  length: number,
  angle: number,
  sum: number,
  projections: readonly MomentProjection[],
): LinearStep {
  const sums = multiples(length, angle, 2 * projections.length);
  const blocks = factor(sums, projections.length);
  const right = rightHandSides(sum, projections);
  const amplitudes = toAmplitudes(solve(blocks, right));
  const coupling = derivativeProducts(sums, amplitudes);
  const response = solve(blocks, coupling);
  const slope = derivativeOnData(amplitudes, projections) - dot(response, right);
  const angleStep = slope / (derivativeSquare(sums, amplitudes) - dot(response, coupling));
  return { amplitudes, angleStep, moved: move(amplitudes, toAmplitudes(response), angleStep) };
}

/** Variances of fitted quantities for white noise of unit variance. */
export interface UnitVariances {
  /** Of a component of orders 1, 2, …, mean of cosine and sine: 2/N for many cycles, more for few and broken ones. */
  components: number[];
  /** Of the angle; 24/(A²·N·(N² − 1)) for many cycles of a sine. */
  angle: number;
}

/** Diagonal of the inverse normal matrix of the whole fit, angle included. */
export function unitVariances(length: number, angle: number, amplitudes: Amplitudes): UnitVariances {
  const orders = amplitudes.cosine.length;
  const sums = multiples(length, angle, 2 * orders);
  const blocks = factor(sums, orders);
  const coupling = derivativeProducts(sums, amplitudes);
  const response = solve(blocks, coupling);
  const angleVariance = 1 / (derivativeSquare(sums, amplitudes) - dot(response, coupling));
  const cosine = blocks.even
    .solve(Matrix.eye(orders + 1))
    .diagonal()
    .slice(1);
  const sine = blocks.odd.solve(Matrix.eye(orders)).diagonal();
  const components = sine.map((variance, i) => {
    const [even = 0, odd = 0] = [response.even[i + 1], response.odd[i]];
    return (variance + (cosine[i] ?? variance) + angleVariance * (even * even + odd * odd)) / 2;
  });
  return { components, angle: angleVariance };
}

function multiples(length: number, angle: number, highest: number): TrigonometricSums[] {
  return Array.from({ length: highest + 1 }, (_, k) => trigonometricSums(length, k * angle));
}

const cosineSum = (sums: readonly TrigonometricSums[], k: number) => sums[Math.abs(k)]?.cosine ?? 0;
const secondMoment = (sums: readonly TrigonometricSums[], k: number) => sums[Math.abs(k)]?.secondMoment ?? 0;
const firstMoment = (sums: readonly TrigonometricSums[], k: number) =>
  Math.sign(k) * (sums[Math.abs(k)]?.firstMoment ?? 0);

/** The cosine block holds the constant as its order 0; the sine block begins with order 1. */
function factor(sums: readonly TrigonometricSums[], orders: number): Blocks {
  const even = Matrix.zeros(orders + 1, orders + 1);
  const odd = Matrix.zeros(orders, orders);
  for (let j = 0; j <= orders; j++) {
    for (let k = 0; k <= orders; k++) {
      const difference = cosineSum(sums, j - k) / 2;
      const sum = cosineSum(sums, j + k) / 2;
      even.set(j, k, difference + sum);
      if (j > 0 && k > 0) odd.set(j - 1, k - 1, difference - sum);
    }
  }
  return { even: new CholeskyDecomposition(even), odd: new CholeskyDecomposition(odd) };
}

function solve({ even, odd }: Blocks, right: Vectors): Vectors {
  return {
    even: even.solve(Matrix.columnVector(right.even)).to1DArray(),
    odd: odd.solve(Matrix.columnVector(right.odd)).to1DArray(),
  };
}

function rightHandSides(sum: number, projections: readonly MomentProjection[]): Vectors {
  return { even: [sum, ...projections.map((p) => p.cosine)], odd: projections.map((p) => p.sine) };
}

function toAmplitudes({ even, odd }: Vectors): Amplitudes {
  const [constant = 0, ...cosine] = even;
  return { constant, cosine, sine: odd };
}

/** Products of the derivative by the angle with every cosine and sine column. */
function derivativeProducts(sums: readonly TrigonometricSums[], { cosine, sine }: Amplitudes): Vectors {
  const orders = cosine.length;
  const even = Array.from({ length: orders + 1 }, (_, j) =>
    total(cosine, (a, k) => (-k * a * (firstMoment(sums, k + j) + firstMoment(sums, k - j))) / 2),
  );
  const odd = Array.from({ length: orders }, (_, i) =>
    total(sine, (b, k) => (k * b * (firstMoment(sums, i + 1 + k) + firstMoment(sums, i + 1 - k))) / 2),
  );
  return { even, odd };
}

function derivativeSquare(sums: readonly TrigonometricSums[], { cosine, sine }: Amplitudes): number {
  const even = total(cosine, (a, k) =>
    total(cosine, (b, j) => (j * k * a * b * (secondMoment(sums, k - j) - secondMoment(sums, k + j))) / 2),
  );
  const odd = total(sine, (a, k) =>
    total(sine, (b, j) => (j * k * a * b * (secondMoment(sums, k - j) + secondMoment(sums, k + j))) / 2),
  );
  return even + odd;
}

function derivativeOnData({ cosine, sine }: Amplitudes, projections: readonly MomentProjection[]): number {
  const even = total(cosine, (a, k) => -k * a * (projections[k - 1]?.sineMoment ?? 0));
  const odd = total(sine, (b, k) => k * b * (projections[k - 1]?.cosineMoment ?? 0));
  return even + odd;
}

/** Sum of a term over the orders 1, 2, …; the term is given the amplitude and the order. */
function total(amplitudes: readonly number[], term: (amplitude: number, order: number) => number): number {
  return amplitudes.reduce((sum, amplitude, index) => sum + term(amplitude, index + 1), 0);
}

function dot(a: Vectors, b: Vectors): number {
  const product = (x: readonly number[], y: readonly number[]) =>
    x.reduce((sum, value, i) => sum + value * (y[i] ?? 0), 0);
  return product(a.even, b.even) + product(a.odd, b.odd);
}

function move(amplitudes: Amplitudes, response: Amplitudes, angleStep: number): Amplitudes {
  const shift = (values: readonly number[], by: readonly number[]) =>
    values.map((value, i) => value - angleStep * (by[i] ?? 0));
  return {
    constant: amplitudes.constant - angleStep * response.constant,
    cosine: shift(amplitudes.cosine, response.cosine),
    sine: shift(amplitudes.sine, response.sine),
  };
}
