import type { Figure } from '../figures/index.ts';
import { ratioMeans, studentExceeded, valueAt } from '../signal/index.ts';
import { scatterOf } from './scatter.ts';
import { ratioAt, type SweepCurve } from './sweep-reading.ts';

/** A column of ratios that two alternatives are compared by. */
export interface ReadCurve extends SweepCurve {
  /** What its readings are, without value and interval. */
  figure: Omit<Figure, 'value' | 'low' | 'high'>;
  /** What the instrument may be off by at each reading, in the unit of the values. */
  bound: Float64Array;
}

/** How many standard deviations an interval is wide to either side, by its degrees of freedom. */
export type FactorOf = (freedom: number) => number;

/** One reading of a curve. */
export interface Reading {
  /** Null where the curve does not reach the place. */
  value: number | null;
  /** How far its own scatter goes, as a logarithm; null where the curve has too few readings to tell. */
  scatter: number | null;
  /** What the instrument may be off by. */
  bound: number;
  figure: ReadCurve['figure'];
}

/** A curve that can be read. */
export interface CurveReader {
  /** Lowest and highest place. */
  range: readonly [number, number];
  places: Float64Array;
  at(place: number): Reading;
  /** Mean of the logarithm over a band within the range. */
  mean(band: readonly [number, number]): Reading;
}

/** The curve without readings at or below zero, which have no place on logarithmic axes. */
export function positiveCurve(curve: ReadCurve): ReadCurve {
  const keep = [...curve.values.keys()].filter((i) => (curve.values[i] ?? 0) > 0);
  const only = (column: Float64Array) => Float64Array.from(keep, (i) => column[i] ?? 0);
  return { ...curve, axis: only(curve.axis), values: only(curve.values), bound: only(curve.bound) };
}

/**
 * Reads a curve of ratios above zero between its readings, straight on logarithmic axes, with as many standard deviations
 * of the readings’ own scatter as asked for.
 */
export function curveReader(curve: ReadCurve, factorOf: FactorOf): CurveReader {
  const { axis, bound, figure } = curve;
  const { relative, freedom } = scatterOf(curve);
  const factor = factorOf(freedom);
  const boundAt = (place: number) => valueAt({ axis, values: bound, between: 'straight' }, place) ?? 0;
  const times = (scatter: number) => (Number.isFinite(factor) ? factor * scatter : null);
  return {
    range: [axis[0] ?? 0, axis.at(-1) ?? 0],
    places: axis,
    at: (place) => ({
      ...{ value: ratioAt(curve, place), scatter: times(scatterNear(curve, relative, place)) },
      ...{ bound: boundAt(place), figure },
    }),
    mean: (band) => {
      const inside = [...axis.keys()].filter((i) => isWithin(axis[i] ?? 0, band));
      const most = Math.max(...inside.map((i) => relative[i] ?? 0), scatterNear(curve, relative, band[0]));
      return {
        value: ratioMeans({ ...curve, between: 'power' }, band)?.geometric ?? null,
        scatter: times(most / Math.sqrt(Math.max(1, inside.length - 1))),
        bound: Math.max(boundAt(band[0]), boundAt(band[1]), ...inside.map((i) => bound[i] ?? 0)),
        figure,
      };
    },
  };
}

/**
 * A reading as a figure. Its interval is a share of its scatter to either side, and beyond that all that the instrument
 * may be off by.
 */
export function readingFigure({ value, scatter, bound, figure }: Reading, share = 1): Figure {
  if (value === null) return { ...figure, value, absent: 'The sweep does not reach it.' };
  if (scatter === null) return { ...figure, value };
  const low = Math.max(0, value * Math.exp(-share * scatter) - bound);
  return { ...figure, value, low, high: value * Math.exp(share * scatter) + bound };
}

const isWithin = (place: number, [from, to]: readonly [number, number]) => place >= from && place <= to;

/** The larger scatter of the two readings that a place lies between. */
function scatterNear({ axis }: SweepCurve, relative: Float64Array, place: number): number {
  const next = axis.findIndex((at) => at >= place);
  if (next === -1) return relative.at(-1) ?? 0;
  return Math.max(relative[next] ?? 0, axis[next] === place ? 0 : (relative[next - 1] ?? 0));
}

/** Mean of the logarithm of a curve over a band with its interval of 95 %; absent where the curve does not reach it. */
export function bandMean(curve: ReadCurve, band: readonly [number, number]): Figure {
  const reader = curveReader(positiveCurve(curve), (freedom) => studentExceeded(0.05, freedom));
  return readingFigure(reader.mean(band));
}
