import type { Capture } from '../../capture/index.ts';

/** The largest distance of a column from zero, and the row where it is first reached. */
export interface Peak {
  size: number;
  row: number;
}

/** Peaks of the columns of a capture by name, so that nobody goes through the readings for them again. */
export type Peaks = ReadonlyMap<string, Peak>;

export const peaksOf = ({ columns }: Pick<Capture, 'columns'>): Peaks =>
  new Map(columns.map(({ name, values }) => [name, peakOf(values)]));

function peakOf(values: Float64Array): Peak {
  const peak = { size: 0, row: 0 };
  for (const [row, value] of values.entries()) {
    const size = Math.abs(value);
    if (size > peak.size) Object.assign(peak, { size, row });
  }
  return peak;
}
