import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decimate } from '../../src/charts/decimate.ts';

const perColumn = (width: number) => (index: number) => Math.floor(index / width);
const pick = (values: readonly number[], indices: readonly number[]) => indices.map((i) => values[i]);

describe('decimate(values, column)', () => {
  it('keeps the lowest and the highest of each column in the order they were read', () => {
    const values = [3, 9, 1, 4, 2, 2, 8, 0];
    expect(pick(values, decimate(values, perColumn(4)))).toEqual([3, 9, 1, 8, 0]);
  });

  it('lets a single peak among 100000 readings survive', () => {
    const values = Array.from({ length: 100_000 }, (_, i) => (i === 54_321 ? 1 : 0));
    const kept = decimate(values, perColumn(200));
    expect(kept).toContain(54_321);
    expect(kept.length).toBeLessThanOrEqual(2 * 500 + 2);
  });

  it('keeps everything where no column holds more than two readings', () => {
    expect(decimate([5, 1, 4, 2], perColumn(2))).toEqual([0, 1, 2, 3]);
  });

  it('keeps both ends', () => {
    const values = [5, 9, 1, 5];
    expect(decimate(values, () => 0)).toEqual([0, 1, 2, 3]);
    expect(decimate([5, 5, 5, 5, 5], () => 0)).toEqual([0, 4]);
  });

  it('gives nothing for no readings and one index for one', () => {
    expect(decimate([], () => 0)).toEqual([]);
    expect(decimate([7], () => 0)).toEqual([0]);
  });

  it('keeps ascending indices, the extremes of every column, and at most two per column beside the ends', () => {
    const lists = fc.array(fc.integer({ min: -100, max: 100 }), { minLength: 1, maxLength: 200 });
    fc.assert(
      fc.property(lists, fc.integer({ min: 1, max: 20 }), (values, width) => {
        const kept = decimate(values, perColumn(width));
        expect(kept).toEqual([...new Set(kept)].toSorted((a, b) => a - b));
        for (let start = 0; start < values.length; start += width) {
          const column = values.slice(start, start + width);
          const left = pick(
            values,
            kept.filter((i) => i >= start && i < start + width),
          );
          expect(left).toContain(Math.min(...column));
          expect(left).toContain(Math.max(...column));
        }
        expect(kept.length).toBeLessThanOrEqual(2 * Math.ceil(values.length / width) + 2);
      }),
      { seed: 20260101 },
    );
  });
});
