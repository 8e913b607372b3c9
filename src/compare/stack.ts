import type { ReadCurve } from './read-curve.ts';
import { ratioAt, type SweepCurve } from './sweep-reading.ts';

/** One sweep of an alternative: a distortion curve, and the level at which each frequency was taken. */
export interface Layer {
  curve: ReadCurve;
  /** Volts over the same axis; only ratios of them count. */
  level: SweepCurve;
}

interface At {
  level: number;
  ratio: number;
  bound: number;
}

/**
 * Distortion over frequency at one level, from sweeps at several. Where sweeps were taken at that level within the
 * tolerance it is their geometric mean, otherwise it is read straight on log-log paper between the nearest below and
 * above; elsewhere there is nothing. A level that is off by so much within the tolerance may be off in a harmonic of order
 * n by n − 1 times as much, which joins what the instrument may add.
 * @source a harmonic of order n rises with n − 1 times the level in decibels while the curve is smooth (derived).
 */
export function stackedCurve(
  layers: readonly Layer[],
  level: number,
  { tolerance, order }: { tolerance: number; order: number },
): ReadCurve | null {
  const [first] = layers;
  if (!first) return null;
  const every = layers.flatMap(({ curve }) => [...curve.axis]);
  const places = [...new Set(every)].sort((a, b) => a - b);
  const read = places.flatMap((place) => {
    const found = readingAt(readingsAt(layers, place), level, tolerance, order);
    return found ? [{ place, ...found }] : [];
  });
  if (read.length === 0) return null;
  return {
    ...first.curve,
    axis: Float64Array.from(read, ({ place }) => place),
    values: Float64Array.from(read, ({ ratio }) => ratio),
    bound: Float64Array.from(read, ({ bound }) => bound),
  };
}

function readingsAt(layers: readonly Layer[], place: number): At[] {
  return layers.flatMap(({ curve, level }) => {
    const [ratio, volts] = [ratioAt(curve, place), ratioAt(level, place)];
    const bound = ratioAt({ axis: curve.axis, values: curve.bound }, place);
    if (ratio === null || volts === null || bound === null || !(ratio > 0) || !(volts > 0)) return [];
    return [{ level: volts, ratio, bound }];
  });
}

function readingAt(
  readings: readonly At[],
  level: number,
  tolerance: number,
  order: number,
): { ratio: number; bound: number } | null {
  const offBy = ({ level: taken }: At) => Math.abs(Math.log(taken / level));
  const equal = readings.filter((reading) => offBy(reading) <= Math.log(tolerance));
  if (equal.length > 0) {
    const ratio = Math.exp(meanOf(equal.map((one) => Math.log(one.ratio))));
    const off = Math.max(...equal.map((one) => one.bound + one.ratio * (order - 1) * offBy(one)));
    return { ratio, bound: off };
  }
  const [below] = readings.filter((one) => one.level < level).sort((a, b) => b.level - a.level);
  const [above] = readings.filter((one) => one.level > level).sort((a, b) => a.level - b.level);
  if (!below || !above) return null;
  const share = Math.log(level / below.level) / Math.log(above.level / below.level);
  return {
    ratio: below.ratio * (above.ratio / below.ratio) ** share,
    bound: Math.max(below.bound, above.bound),
  };
}

/** The geometric mean of curves over the places of the first that all of them reach; null without any. */
export function mergedCurves(curves: readonly ReadCurve[]): ReadCurve | null {
  const [first, ...others] = curves;
  if (!first || others.length === 0) return first ?? null;
  const rows = [...first.axis.keys()].flatMap((row) => {
    const at = first.axis[row] ?? 0;
    const ratios = curves.map((curve) => ratioAt(curve, at));
    const sound = ratios.flatMap((ratio) => (ratio !== null && ratio > 0 ? [Math.log(ratio)] : []));
    return sound.length < curves.length ? [] : [{ row, at, value: Math.exp(meanOf(sound)) }];
  });
  return {
    ...first,
    axis: Float64Array.from(rows, ({ at }) => at),
    values: Float64Array.from(rows, ({ value }) => value),
    bound: Float64Array.from(rows, ({ row }) => first.bound[row] ?? 0),
  };
}

const meanOf = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
