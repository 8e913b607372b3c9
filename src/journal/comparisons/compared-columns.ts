import type { ReadCurve } from '../../compare/index.ts';
import { type Figure, measuredFigure } from '../../figures/index.ts';
import { curveOf, powersOf, ratiosOf } from '../claims/sweep-reader.ts';
import type { ComparedSource } from './compared-sources.ts';

/** One sweep of an alternative, its columns over its own axis. */
export interface ComparedSweep {
  source: ComparedSource;
  /** Hertz of a frequency sweep; in the order of the file for a level sweep. */
  axis: Float64Array;
  /** Output power and input voltage of every row; null where they are not on record. */
  powerW: Float64Array | null;
  inputV: Float64Array | null;
  /** Distortion by the id of its figure, sums of even and odd orders among them. */
  ratios: ReadonlyMap<string, Float64Array>;
}

/** The sweeps of one kind among some sources. */
export function comparedSweeps(
  sources: readonly ComparedSource[],
  kind: 'frequency-sweep' | 'level-sweep',
): ComparedSweep[] {
  return sources.flatMap((source) => {
    const { analysis, capture, data } = source.capture;
    if (analysis.kind !== kind) return [];
    const channel = analysis.sweeps.find((one) => one.channel.name === source.channel)?.channel;
    if (!channel) return [];
    const stimulus = capture.columns.find(
      ({ role, quantity }) => role === 'stimulus' && quantity === 'voltage',
    );
    const volts = channel.level?.quantity === 'voltage' ? channel.level.values : null;
    const watts = channel.level?.quantity === 'power' ? channel.level.values : null;
    const { load } = data;
    const ofLoad = load === undefined || volts === null ? null : volts.map((volt) => volt ** 2 / load);
    const powerW = analysis.kind === 'level-sweep' ? powersOf(analysis, channel) : (watts ?? ofLoad);
    const ratios = new Map([...ratiosOf(channel), ...sumsOf(ratiosOf(channel))]);
    return [{ source, axis: analysis.axis.values, powerW, inputV: stimulus?.values ?? null, ratios }];
  });
}

/** Root sums of squares of the even and of the odd orders, where there are several of them. */
function sumsOf(columns: ReadonlyMap<string, Float64Array>): [string, Float64Array][] {
  const orders = [...columns].flatMap(([id, values]) => {
    const order = Number(/^harmonic-(\d+)$/.exec(id)?.[1]);
    return Number.isNaN(order) || order < 2 ? [] : [{ order, values }];
  });
  return [0, 1].flatMap((rest): [string, Float64Array][] => {
    const summed = orders.filter(({ order }) => order % 2 === rest);
    if (summed.length < 2) return [];
    const [first] = summed;
    const sum = (first?.values ?? new Float64Array(0)).map((_, i) =>
      Math.hypot(...summed.map(({ values }) => values[i] ?? Number.NaN)),
    );
    return [[rest === 0 ? 'even-harmonics' : 'odd-harmonics', sum]];
  });
}

/** A distortion column of a sweep over places of its rows, with what the instrument may add at each. */
export function readColumn(sweep: ComparedSweep, id: string, places: Float64Array): ReadCurve | null {
  const values = sweep.ratios.get(id);
  if (!values) return null;
  const curve = curveOf(sweep.axis, places, values);
  const figure = figureOf(sweep.source, id);
  const isFrequency = places === sweep.axis;
  const bound = curve.axis.map((place, i) =>
    boundOf(sweep.source, { ...figure, value: curve.values[i] ?? 0 }, isFrequency ? place : null),
  );
  return { ...curve, bound, figure };
}

function figureOf({ capture, channel }: ComparedSource, id: string): Omit<Figure, 'value' | 'low' | 'high'> {
  const { file, sha256, data, capture: read } = capture;
  const { firstDataLine, rows } = read.table;
  return {
    ...{ id, unit: '1', subject: channel, conditions: data.conditions },
    provenance: {
      ...{ file, sha256, lines: [firstDataLine, firstDataLine + rows - 1] },
      ...{ method: 'between-points', settings: {} },
    },
  };
}

/** How far the instrument may be off at one reading. */
function boundOf({ capture, channel }: ComparedSource, figure: Figure, frequencyHz: number | null): number {
  const { measurement } = capture;
  const taken = measurement?.channels.get(channel);
  if (!measurement || !taken || figure.value === null) return 0;
  const at = frequencyHz === null ? taken : { ...taken, frequencyHz };
  const { high = figure.value } = measuredFigure(figure, {
    instrument: measurement.instrument,
    channels: new Map([[channel, at]]),
  });
  return high - figure.value;
}
