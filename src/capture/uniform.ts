/** How evenly a column of time stamps is spaced. */
export type Spacing =
  | { kind: 'uniform'; step: number; largestStepError: number; rounded: boolean }
  /** The stamp of this row is smaller than the one before. */
  | { kind: 'decreasing'; row: number }
  /** No stamp differs from the first. */
  | { kind: 'still' }
  /** From this row on the stamps leave the grid of those before; `step` is that grid's, `slack` the rounding of one. */
  | { kind: 'irregular'; row: number; step: number; slack: number };

/** Half a unit of the last printed digit of a stamp. */
type HalfDigit = (stamp: number) => number;

const tiny = 1e-9;

export interface SpacingOptions {
  /** Half a unit of a stamp's last printed digit; asked for only when the stamps are not even as they stand. */
  halfDigit: () => HalfDigit;
  /** A rate known from elsewhere, as a step. Without one, a gap in otherwise equal steps is not rounding. */
  knownStep: number | null;
}

/**
 * Decides whether stamps lie on a uniform grid within their own rounding. The grid is the line through the
 * first and the last stamp, each of which may be off by half a digit as well.
 */
export function spacingOf(stamps: Float64Array, { halfDigit, knownStep }: SpacingOptions): Spacing {
  const decrease = firstDecrease(stamps);
  if (decrease !== null) return { kind: 'decreasing', row: decrease };
  const last = stamps.length - 1;
  const step = meanStep(stamps, last);
  if (!(step > 0)) return { kind: 'still' };
  const largest = largestDistance(stamps, step);
  const rounded = largest > Math.max(tiny * step, arithmeticNoise(stamps));
  if (!rounded) return { kind: 'uniform', step, largestStepError: largest / step, rounded };
  const half = halfDigit();
  if (!isEvenUpTo(last, stamps, half)) return irregular(stamps, half);
  const slack = half(stamps[0] ?? 0) + half(stamps[last] ?? 0);
  const isKnown = knownStep !== null && Math.abs(knownStep - step) * last <= slack;
  const gap = isKnown ? null : gapInEqualSteps(stamps, half);
  return gap ?? { kind: 'uniform', step, largestStepError: largest / step, rounded };
}

/** The first row whose stamp is smaller than the one before. */
function firstDecrease(stamps: Float64Array): number | null {
  for (let row = 1; row < stamps.length; row++) {
    if (stepAt(stamps, row) < 0) return row;
  }
  return null;
}

/** Largest distance of a stamp from the grid that starts at the first stamp, in the stamps' unit. */
export function largestDistance(stamps: Float64Array, step: number): number {
  const first = stamps[0] ?? 0;
  let largest = 0;
  for (let row = 1; row < stamps.length; row++) {
    const distance = Math.abs((stamps[row] ?? 0) - first - row * step);
    if (distance > largest) largest = distance;
  }
  return largest;
}

function meanStep(stamps: Float64Array, last: number): number {
  return ((stamps[last] ?? 0) - (stamps[0] ?? 0)) / last;
}

/** What adding and converting stamps of this size can be off by in double precision. */
function arithmeticNoise(stamps: Float64Array): number {
  const size = Math.max(Math.abs(stamps[0] ?? 0), Math.abs(stamps.at(-1) ?? 0));
  return 8 * Number.EPSILON * size;
}

/**
 * True when the stamps up to a row lie on the line through the first and that row's, and each step is that
 * line's, within their rounding.
 */
function isEvenUpTo(last: number, stamps: Float64Array, half: HalfDigit): boolean {
  const first = stamps[0] ?? 0;
  const step = meanStep(stamps, last);
  const firstHalf = half(first);
  const endHalf = half(stamps[last] ?? 0);
  const noise = arithmeticNoise(stamps);
  let before = first;
  let beforeHalf = firstHalf;
  for (let row = 1; row <= last; row++) {
    const stamp = stamps[row] ?? 0;
    const own = half(stamp);
    const share = row / last;
    const allowed = own + firstHalf * (1 - share) + endHalf * share + noise;
    const allowedStep = own + beforeHalf + (firstHalf + endHalf) / last + noise;
    if (Math.abs(stamp - first - row * step) > allowed) return false;
    if (Math.abs(stamp - before - step) > allowedStep) return false;
    before = stamp;
    beforeHalf = own;
  }
  return true;
}

/**
 * A few steps of twice the usual length, or more times, among steps that are equal to the digit. Rounding
 * could explain them by a rate that differs by just so much; missing samples explain them without it.
 */
function gapInEqualSteps(stamps: Float64Array, half: HalfDigit): Spacing | null {
  const usual = medianStep(stamps);
  const allowed = 1e-6 * usual + arithmeticNoise(stamps);
  let gaps = 0;
  let first = 0;
  for (let row = 1; row < stamps.length; row++) {
    const step = stepAt(stamps, row);
    if (Math.abs(step - usual) <= allowed) continue;
    const times = Math.round(step / usual);
    if (!(times >= 2 && Math.abs(step - times * usual) <= allowed * times)) return null;
    gaps++;
    if (first === 0) first = row;
  }
  const isFew = gaps <= Math.max(2, stamps.length / 10);
  return gaps > 0 && isFew ? irregularAt(first, usual, stamps, half) : null;
}

/** Finds by bisection the first row whose stamp no longer fits the grid of the rows before it. */
function irregular(stamps: Float64Array, half: HalfDigit): Spacing {
  let even = 1;
  let uneven = stamps.length - 1;
  while (uneven - even > 1) {
    const middle = (even + uneven) >> 1;
    if (isEvenUpTo(middle, stamps, half)) even = middle;
    else uneven = middle;
  }
  const usual = medianStep(stamps);
  const usualSlack = 2 * half(stamps.at(-1) ?? 0);
  const isUsual = (row: number) =>
    Math.abs(stepAt(stamps, row) - usual) <= stepSlack(row, stamps, half) + usualSlack;
  // Behind a first step of twice the length, steps of three digits still look like one grid with it.
  return even <= 2 && isUsual(2) && !isUsual(1)
    ? irregularAt(1, usual, stamps, half)
    : irregularAt(uneven, meanStep(stamps, even), stamps, half);
}

function irregularAt(row: number, step: number, stamps: Float64Array, half: HalfDigit): Spacing {
  return { kind: 'irregular', row, step, slack: stepSlack(row, stamps, half) };
}

/** What rounding leaves open of the step that ends at a row. */
const stepSlack = (row: number, stamps: Float64Array, half: HalfDigit) =>
  half(stamps[row] ?? 0) + half(stamps[row - 1] ?? 0);

const stepAt = (stamps: Float64Array, row: number) => (stamps[row] ?? 0) - (stamps[row - 1] ?? 0);

const sampledSteps = 1001;

/** Median of steps taken evenly from all rows; of all steps where there are no more than that. */
function medianStep(stamps: Float64Array): number {
  const count = Math.min(stamps.length - 1, sampledSteps);
  const stride = (stamps.length - 1) / count;
  const steps = Float64Array.from({ length: count }, (_, k) => stepAt(stamps, 1 + Math.floor(k * stride)));
  return steps.sort()[count >> 1] ?? 0;
}
