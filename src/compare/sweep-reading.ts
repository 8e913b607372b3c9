import { valueAt } from '../signal/index.ts';

/** A distortion column of a sweep over its axis: hertz, or watts. */
export interface SweepCurve {
  axis: Float64Array;
  values: Float64Array;
}

/** The column in ascending order of an axis above zero; a row that does not rise past those before it is left out. */
export function risingCurve(axis: Float64Array, values: Float64Array): SweepCurve {
  let last = 0;
  const rows = Array.from(axis, (at, i) => ({ at, value: values[i] ?? Number.NaN })).filter(
    ({ at, value }) => {
      const rises = at > last && Number.isFinite(value);
      if (rises) last = at;
      return rises;
    },
  );
  return {
    axis: Float64Array.from(rows, ({ at }) => at),
    values: Float64Array.from(rows, ({ value }) => value),
  };
}

/** The ratio at a place between points, straight on log-log paper; null outside the sweep. */
export function ratioAt(curve: SweepCurve, at: number): number | null {
  return valueAt({ ...curve, between: 'power' }, at);
}

/** Where a band is looked at: its edges, and every point of the sweep between them. */
export function placesWithin({ axis }: SweepCurve, [from, to]: readonly [number, number]): number[] {
  return [from, ...[...axis].filter((at) => at > from && at < to), to];
}
