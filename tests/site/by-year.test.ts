import { expect, test } from 'vitest';
import { byYear } from '../../src/site/by-year.ts';

const records = (count: number, year: number) =>
  Array.from({ length: count }, (_, index) => ({ data: { date: `${year}-01-01` }, index }));

test('a long list of several years is told year by year, in its order', () => {
  const years = byYear([...records(40, 2026), ...records(1, 2025)]);
  expect(years?.map(({ year, records: ofYear }) => [year, ofYear.length])).toEqual([
    ['2026', 40],
    ['2025', 1],
  ]);
  expect(years?.[0]?.records.map(({ index }) => index)).toEqual(Array.from({ length: 40 }, (_, i) => i));
});

test('a short list, and one of a single year, are not divided', () => {
  expect(byYear([...records(39, 2026), ...records(1, 2025)])).toBeNull();
  expect(byYear(records(100, 2026))).toBeNull();
});
