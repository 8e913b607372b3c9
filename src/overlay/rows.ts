import type { OverlayState } from './state.ts';
import type { Trace } from './types.ts';

/** The columns of what is shown as a table to take along. */
export const csvHeader = ({ view }: Pick<OverlayState, 'view'>): string[] => [
  'trace',
  'title',
  view.along === 'power' ? 'power_w' : 'frequency_hz',
  'value',
  'unit',
  'low',
  'high',
  'noise_floor',
];

/** One row to a reading of each trace, normalised as it is drawn. */
export function csvRows(traces: readonly Trace[], unit: string): (string | number | null)[][] {
  return traces.flatMap(({ id, title, x, y, low, high, floor }) =>
    x.map((place, i) => [
      ...[id, title, place, rounded(y[i]), unit],
      ...[low, high, floor].map((column) => rounded(column?.[i])),
    ]),
  );
}

const rounded = (value: number | null | undefined): number | null =>
  value === null || value === undefined ? null : Number(value.toPrecision(6));
