import { bandMean, placesWithin, ratioAt, risingCurve, type SweepCurve } from '../../compare/index.ts';
import {
  declaredMeasured,
  type Figure,
  type Measured,
  singleMeasured,
  withInstrument,
} from '../../figures/index.ts';
import type { Fault } from '../../problem/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { SweepChannel } from '../analysis/sweep-channels.ts';
import type { CaptureRecord } from '../types.ts';
import { claimMessages as messages } from './claim-messages.ts';
import type { FigureSource } from './figure-sources.ts';

/** Along what a sweep is read. */
export type SweepAxis = 'frequency' | 'power';

/** A figure that can be read anywhere on a sweep. */
export interface SweepReader {
  /** The figure at hertz or watts; without a value, and with the reason, outside the sweep. */
  at(place: number): Measured;
  /** The edges of a band and the sweep's own points between them. */
  within(band: readonly [number, number]): number[];
  /** Mean of the logarithm over a band, with the scatter of the sweep; without a value outside the sweep. */
  mean(band: readonly [number, number]): Measured;
}

/** The place as it is printed: "1.00 kHz". */
export const placeText = (place: number, axis: SweepAxis): string =>
  quantityText(place, axis === 'frequency' ? 'Hz' : 'W');

/** How to read a figure from a sweep; null for a source that is none over this axis. */
export function sweepReader(
  { capture, id }: FigureSource,
  part: string | undefined,
  figure: string,
  axis: SweepAxis,
): SweepReader | { fault: Fault; at: 'of' | 'figure' } | null {
  if (capture === null || capture.id !== id) return null;
  const { analysis } = capture;
  if (analysis.kind !== (axis === 'frequency' ? 'frequency-sweep' : 'level-sweep')) return null;
  const channels = analysis.sweeps.map(({ channel }) => channel);
  const names = channels.map(({ name }) => name);
  if (part === undefined && channels.length > 1) return { fault: messages.whichPart(id, names), at: 'of' };
  const channel = part === undefined ? channels[0] : channels.find(({ name }) => name === part);
  if (!channel) return { fault: messages.noPart(part ?? '', [], names), at: 'of' };
  const columns = ratiosOf(channel);
  const values = columns.get(figure);
  const places = axis === 'frequency' ? analysis.axis.values : powersOf(analysis, channel);
  if (!values || !places)
    return { fault: messages.notInSweep(figure, id, [...columns.keys()]), at: 'figure' };
  const curve = curveOf(analysis.axis.values, places, values);
  return readerOf({ capture, channel: channel.name, figure, axis, curve });
}

/** The distortion columns of a channel by the id of their figure. */
export function ratiosOf({ thd, thdPlusNoise, harmonics }: SweepChannel): Map<string, Float64Array> {
  return new Map([
    ...(thd ? [['thd', thd.values] as const] : []),
    ...(thdPlusNoise ? [['thd-plus-noise', thdPlusNoise.values] as const] : []),
    ...harmonics.map(({ order, values }) => [`harmonic-${order}`, values] as const),
  ]);
}

/** Output power of a level sweep, row by row; null where neither column nor load gives it. */
export function powersOf(analysis: CaptureRecord['analysis'], { level }: SweepChannel): Float64Array | null {
  if (analysis.kind !== 'level-sweep') return null;
  if (level?.quantity === 'power') return level.values;
  if (analysis.axis.quantity === 'power') return analysis.axis.values;
  const { loadOhm } = analysis;
  if (level?.quantity !== 'voltage' || loadOhm === null) return null;
  return level.values.map((volts) => volts ** 2 / loadOhm);
}

/** A column over the places it is read at, in the order of the sweep's own axis. */
export function curveOf(order: Float64Array, places: Float64Array, values: Float64Array): SweepCurve {
  const rows = [...order.keys()].sort((a, b) => (order[a] ?? 0) - (order[b] ?? 0));
  const sorted = (column: Float64Array) => Float64Array.from(rows, (row) => column[row] ?? Number.NaN);
  return risingCurve(sorted(places), sorted(values));
}

interface Reading {
  capture: CaptureRecord;
  channel: string;
  figure: string;
  axis: SweepAxis;
  curve: SweepCurve;
}

function readerOf(reading: Reading): SweepReader {
  return {
    at: (place) => declaredMeasured(measuredAt(reading, place), reading.capture.repeatability),
    within: (band) => placesWithin(reading.curve, band),
    mean: (band) => singleMeasured(meanOver(reading, band)),
  };
}

function meanOver(reading: Reading, band: readonly [number, number]): Figure {
  const { axis, values } = reading.curve;
  const { value: _value, low: _low, high: _high, ...figure } = measuredAt(reading, band[0]);
  const bound = axis.map((place, i) => {
    const { value, high = value } = measuredAt(reading, place);
    return (high ?? 0) - (value ?? values[i] ?? 0);
  });
  const { absent: _absent, ...known } = figure;
  return bandMean(
    { axis, values, bound, figure: { ...known, conditions: reading.capture.data.conditions } },
    band,
  );
}

function measuredAt({ capture, channel, figure: id, axis, curve }: Reading, place: number): Figure {
  const { file, sha256, data, measurement, capture: table } = capture;
  const value = ratioAt(curve, place);
  const { firstDataLine, rows } = table.table;
  const figure: Figure = {
    ...{ id, value, unit: '1', subject: channel },
    ...(value === null ? { absent: outside(curve, place, axis) } : {}),
    conditions: { ...data.conditions, at: placeText(place, axis) },
    provenance: {
      ...{ file, sha256, lines: [firstDataLine, firstDataLine + rows - 1] },
      ...{ method: 'between-points', settings: {} },
    },
  };
  const taken = measurement?.channels.get(channel);
  if (!measurement || !taken) return figure;
  const at = axis === 'frequency' ? { ...taken, frequencyHz: place } : taken;
  const { instrument } = measurement;
  return withInstrument([figure], { instrument, channels: new Map([[channel, at]]) })[0] ?? figure;
}

function outside({ axis }: SweepCurve, place: number, along: SweepAxis): string {
  const [first, last] = [axis[0], axis.at(-1)];
  if (first === undefined || last === undefined) return 'The sweep has no usable point.';
  const [from, to] = [first, last].map((end) => placeText(end, along));
  return `The sweep runs from ${from} to ${to} and does not reach ${placeText(place, along)}.`;
}
