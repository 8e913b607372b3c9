import { describe, expect, test } from 'vitest';
import type { Unit, UnitRow } from '../../src/journal/index.ts';
import { batchFigures, batchText, limitText, outcomeText, unitsOf } from '../../src/site/units.ts';

const row = (
  name: string,
  value: number | null,
  verdict: UnitRow['verdict'],
  more: Partial<UnitRow> = {},
): UnitRow => ({
  ...{ key: name.toLowerCase(), name, figure: null, limits: {}, value, unit: 'V', text: '' },
  ...{ date: null, done: null, capture: null, counts: true, verdict },
  ...more,
});

const unit = (serial: string, ...rows: UnitRow[]): Unit => ({
  ...{ id: `amplifiers/tern/units/${serial}`, file: '', amplifier: 'amplifiers/tern', rows, taken: [] },
  data: { serial, version: 'amplifiers/tern/v1', date: '2026-01-01', readings: [], captures: [] },
  outcome: 'within',
  prose: {
    format: 'md',
    body: '',
    bodyLine: 1,
    html: '',
    headings: [],
    headingPlaces: [],
    imagePaths: [],
    mentions: [],
    figures: [],
    fragments: [],
  },
});

describe('the sheet of a unit', () => {
  test.each([
    [
      [row('A', 1, 'within'), row('B', 2, 'within')],
      'All 2 values are within the limits stated by the maker.',
    ],
    [[row('A', 1, 'within')], 'The one value is within the limits stated by the maker.'],
    [
      [row('A', 1, 'outside', { counts: false }), row('A', 2, 'within')],
      'The one value is within the limits stated by the maker.',
    ],
    [[row('A', 1, 'outside'), row('B', 2, 'within')], 'Outside the limits stated by the maker: A.'],
    [
      [row('A', 1, 'outside'), row('B', null, 'not read'), row('', 1, 'cannot be told', { figure: 'thd' })],
      'Outside the limits stated by the maker: A. Not told from their limits, as the interval reaches over them: THD. Not read yet: B.',
    ],
    [[row('A', 1, 'no limit')], 'The maker states no limit for this version.'],
    [[], 'The maker states no limit for this version.'],
  ])('says %# in a sentence, and never that it is safe', (rows, text) => {
    expect(outcomeText({ rows })).toBe(text);
  });
});

test('limits are said as they were written', () => {
  const least = { value: 1, unit: 'V', text: '1 V' };
  const most = { value: 2, unit: 'V', text: '2.0 V' };
  const said = [{ least, most }, { least }, { most }, {}].map((limits) =>
    limitText(limits).replaceAll('\u00a0', ' '),
  );
  expect(said).toEqual(['1 V to 2.0 V', 'at least 1 V', 'at most 2.0 V', '']);
});

describe('a batch', () => {
  const units = [
    unit('T-10', row('A', 3, 'within')),
    unit('T-2', row('A', 9, 'outside', { counts: false }), row('A', 2, 'within')),
    unit('T-1', row('A', null, 'not read'), row('B', 1, 'no limit')),
  ];

  test('is taken by what counts, over the units that have it, with the limits of the version', () => {
    const most = { value: 4, unit: 'V', text: '4 V' };
    const found = batchFigures(units, [{ reading: 'a', most }]);
    expect(
      found.map(({ name, values, limits, spread }) => [name, values.length, limits.most?.text, spread.mean]),
    ).toEqual([
      ['A', 2, '4 V', 2.5],
      ['B', 1, undefined, 1],
    ]);
    expect(found[1]?.spread.standardDeviation).toBeNull();
  });

  test('is listed by serial number as people count', () => {
    const serials = unitsOf('amplifiers/tern/v1', { units }).map(({ data }) => data.serial);
    expect(serials).toEqual(['T-1', 'T-2', 'T-10']);
    expect(unitsOf('amplifiers/tern/v2', { units })).toEqual([]);
  });

  test('prints all of a row in one unit', () => {
    const spread = { count: 2, mean: 13.2, standardDeviation: 0.0337, lowest: 12.8, highest: 13.6 };
    const plain = (text: string) => text.replace('\u00a0', ' ');
    expect(plain(batchText({ unit: 'V', spread }, 0.337, 2))).toBe('0.34 V');
    const small = { ...spread, lowest: 0.0024, highest: 0.0052 };
    expect(plain(batchText({ unit: 'V', spread: small }, 0.0013, 2))).toBe('1.3 mV');
    expect(plain(batchText({ unit: '1', spread }, 0.0331))).toBe('3.31 %');
    expect(plain(batchText({ unit: 'dB', spread }, 60.4))).toBe('60.4 dB');
  });
});
