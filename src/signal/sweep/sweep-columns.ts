import { type Finding, sweepMessages as messages } from '../messages.ts';
import type { Curve } from './interpolate.ts';

/** A column of a sweep before it is checked. */
export interface RawColumn {
  /** Name for sentences, e.g. "level". */
  name: string;
  values: Float64Array | undefined;
  between: Curve['between'];
  usable: (value: number) => boolean;
}

/** Rows of a sweep in ascending order of a positive axis. */
export interface AxisRows {
  /** Positions in the columns, one for each usable point, in order of the axis. */
  rows: number[];
  axis: Float64Array;
  findings: Finding[];
}

export const isPositive = (value: number) => Number.isFinite(value) && value > 0;
/** Decibels and degrees: beyond this no instrument reads, and differences would run out of range. */
export const isReading = (value: number) => Math.abs(value) <= 1e9;
export const isRatio = (value: number) => Number.isFinite(value) && value >= 0;

/** Sorts the points of a sweep by their axis and leaves out those whose axis value is no finite number above zero. */
export function ascendingRows(axis: Float64Array, name: string): AxisRows {
  const rows = [...axis.keys()].filter((row) => isPositive(axis[row] ?? 0));
  rows.sort((a, b) => (axis[a] ?? 0) - (axis[b] ?? 0));
  const left = axis.length - rows.length;
  return {
    rows,
    axis: Float64Array.from(rows, (row) => axis[row] ?? 0),
    findings: left > 0 ? [messages.pointsLeftOut(left, name)] : [],
  };
}

/** A column along the axis, its unusable values left out and repeated points averaged; null where nothing is left. */
export function curveOf(
  { name, values, between, usable }: RawColumn,
  { rows, axis }: AxisRows,
  length: number,
): { curve: Curve | null; findings: Finding[] } {
  if (values === undefined) return { curve: null, findings: [] };
  if (values.length !== length)
    return { curve: null, findings: [messages.columnLength(name, values.length, length)] };
  const points = rows.map((row, i) => ({ at: axis[i] ?? 0, value: values[row] ?? 0 }));
  const good = points.filter(({ value }) => usable(value));
  const findings =
    good.length < points.length ? [messages.valuesLeftOut(points.length - good.length, name)] : [];
  return { curve: good.length === 0 ? null : averaged(good, between), findings };
}

/** Points at the same place become one, with the mean of their values. */
function averaged(points: readonly { at: number; value: number }[], between: Curve['between']): Curve {
  const places = new Map<number, number[]>();
  for (const { at, value } of points) places.set(at, [...(places.get(at) ?? []), value]);
  const means = [...places.values()].map((values) =>
    values.reduce((sum, value) => sum + value / values.length, 0),
  );
  return { axis: Float64Array.from(places.keys()), values: Float64Array.from(means), between };
}
