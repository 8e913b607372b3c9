import { measuredFigure } from '../figures/index.ts';
import type { CaptureRecord } from '../journal/types.ts';

/** Ratios below and above each reading. */
interface Band {
  low: Float64Array;
  high: Float64Array;
}

/** A distortion column of a sweep: its figure, the channel it belongs to, and its rows. */
interface Column {
  id: 'thd' | 'thd-plus-noise';
  channel: string;
  ratio: Float64Array;
  /** Frequency of each row; null for a sweep of one frequency. */
  frequencyHz: Float64Array | null;
}

/**
 * The 95 % interval that the instrument of a capture gives each reading of a distortion column, as a band of a chart.
 * Null where nothing is stated about its own distortion.
 */
export function bandOf({ measurement }: Pick<CaptureRecord, 'measurement'>, column: Column): Band | null {
  const taken = measurement?.channels.get(column.channel);
  if (!measurement || !taken) return null;
  const { instrument } = measurement;
  const rows = Array.from(column.ratio, (value, row) => {
    const frequencyHz = column.frequencyHz?.[row] ?? taken.frequencyHz;
    const channels = new Map([[column.channel, { ...taken, frequencyHz }]]);
    const reading: Parameters<typeof measuredFigure>[0] = {
      ...{ id: column.id, value, unit: '1', subject: column.channel },
    };
    return measuredFigure(reading, { instrument, channels });
  });
  if (rows.every(({ low }) => low === undefined)) return null;
  const ends = (end: 'low' | 'high') => Float64Array.from(rows, (row, i) => row[end] ?? column.ratio[i] ?? 0);
  return { low: ends('low'), high: ends('high') };
}

/** What is said below a chart with bands; nothing without. */
export const bandSentence = (bands: readonly (Band | null)[]): string =>
  bands.some((band) => band !== null)
    ? ' A band is the 95 % interval that the instrument alone gives, where it is wider than the line.'
    : '';
