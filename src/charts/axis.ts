/** One axis of a plot: its kind, the values at its ends and its length in pixels. */
export interface Axis {
  kind: 'linear' | 'log';
  domain: readonly [number, number];
  length: number;
}

/** Pixels from the low end of an axis to a value. */
export const along = (axis: Axis, value: number): number => placesAlong(axis)(value);

/** `along` for many values of one axis. */
export function placesAlong(axis: Axis): (value: number) => number {
  const [low, high] = axis.domain;
  const [first, last] = [map(axis, low), map(axis, high)];
  return (value) => (axis.length * (map(axis, value) - first)) / (last - first);
}

/** Pixels from the high end: how far below the top of a plot a value of its vertical axis lies. */
export function below(axis: Axis, value: number): number {
  return axis.length - along(axis, value);
}

const least = 1e-30;
const most = 1e30;

/** True where an axis has a place for a value at all; on a logarithmic axis what is below 1e-30 counts as zero. */
export function drawable(kind: Axis['kind'], value: number | null | undefined): value is number {
  return typeof value === 'number' && Math.abs(value) <= most && (kind === 'linear' || value >= least);
}

/** True where a value lies between the ends of an axis, ends included. */
export function within({ domain: [low, high] }: Axis, value: number): boolean {
  return value >= low && value <= high;
}

function map({ kind }: Axis, value: number): number {
  return kind === 'log' ? Math.log10(value) : value;
}
