import type { Trace } from '../../src/overlay/index.ts';

/** A trace of a function over places; whatever else it should have is given. */
export function traceOf(
  title: string,
  x: number[],
  value: (x: number) => number | null,
  more: Partial<Trace> = {},
): Trace {
  return {
    ...{ id: title, title, channel: 'out', view: 'thd-frequency', unit: '%' },
    ...{ x, y: x.map(value) },
    ...more,
  };
}

/** Places that divide each octave evenly. */
export const octaves = (from: number, count: number, perOctave = 3): number[] =>
  Array.from({ length: count * perOctave + 1 }, (_, i) => from * 2 ** (i / perOctave));
