import { describe, expect, it } from 'vitest';
import {
  renderChart,
  type SmallTrendData,
  smallTrend,
  type UnitSpreadData,
  unitSpread,
} from '../../src/charts/index.ts';
import { chartOf, sceneOf } from './support.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

const batch: UnitSpreadData = {
  name: 'Cathode voltage',
  unit: 'V',
  values: [
    { unit: 'W-01', value: 13.1, isOutside: false },
    { unit: 'W-02', value: 13.11, isOutside: false },
    { unit: 'W-03', value: 15.2, isOutside: true },
    { unit: 'W-04', value: 11.9, isOutside: true },
  ],
  least: 12.5,
  most: 14.5,
};

const dotsOf = (data: UnitSpreadData) =>
  (chartOf(unitSpread(data)).spec.datasets?.['dot'] ?? []) as { x: number; py: number }[];

describe('the spread of a batch', () => {
  it('says its range and which units are outside', () => {
    expect(plain(chartOf(unitSpread(batch)).text.title)).toBe(
      'Cathode voltage: 11.9 to 15.2 V over 4 units, outside the limits: W-03 and W-04',
    );
    const kept = { ...batch, values: batch.values.slice(0, 2) };
    expect(plain(chartOf(unitSpread(kept)).text.title)).toMatch(/over 2 units, all within the limits$/);
    const free = { ...kept, least: null, most: null };
    expect(plain(chartOf(unitSpread(free)).text.title)).toMatch(/over 2 units$/);
  });

  it('stacks dots that would cover each other, the higher one above', () => {
    const dots = dotsOf(batch);
    const near = dots.filter(({ x }) => Math.abs(x - 13.1) < 0.05);
    expect(near[1]?.py).toBeLessThan(near[0]?.py ?? 0);
    expect(new Set(dots.filter((dot) => !near.includes(dot)).map(({ py }) => py)).size).toBe(1);
  });

  it('shows ratios in per cent and small values with a prefix', () => {
    const hum = { ...batch, unit: 'V', least: null, most: 4e-3 };
    const values = [2.4e-3, 5.2e-3].map((value) => ({ unit: 'a', value, isOutside: false }));
    expect(dotsOf({ ...hum, values }).map(({ x }) => x)).toEqual([2.4, 5.2]);
    const ratios = [0.01, 0.03].map((value) => ({ unit: 'a', value, isOutside: false }));
    const chart = chartOf(unitSpread({ ...batch, unit: '1', least: null, most: 0.04, values: ratios }));
    expect(chart.table.rows).toEqual([
      ['a', '1'],
      ['a', '3'],
    ]);
    expect(chart.table.columns[1]).toMatchObject({ unit: '%' });
  });

  it.each([
    ['far limits', batch],
    ['limits that nearly meet at the right', { ...batch, least: 15.1, most: 15.15 }],
    [
      'a long serial number at the edge',
      { ...batch, values: batch.values.map((one) => ({ ...one, unit: `${one.unit}-OF-THE-FIRST-BATCH` })) },
    ],
  ])('keeps its text inside and apart with %s', async (_title, data) => {
    const chart = chartOf(unitSpread(data));
    const { texts } = await sceneOf(chart);
    const { left, right } = chart.spec.padding as { left: number; right: number };
    expect(texts.length).toBeGreaterThan(4);
    for (const text of texts) {
      expect(text.left, text.text).toBeGreaterThanOrEqual(-left);
      expect(text.right, text.text).toBeLessThanOrEqual(Number(chart.spec.width) + right);
    }
    const halos = texts.filter(
      (a, i) => texts.findIndex((b) => b.text === a.text && b.left === a.left) === i,
    );
    const meeting = halos.flatMap((a, i) =>
      halos
        .slice(i + 1)
        .filter((b) => a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom),
    );
    expect(meeting).toEqual([]);
  });

  it('draws without a warning, and not at all for fewer than two units', async () => {
    expect((await renderChart(chartOf(unitSpread(batch)))).warnings).toEqual([]);
    expect(unitSpread({ ...batch, values: batch.values.slice(0, 1) })).toMatchObject({
      absent: 'Fewer than two units have a value for Cathode voltage.',
    });
  });

  it('holds units that are all alike', () => {
    const alike = batch.values.map((one) => ({ ...one, value: 0 }));
    const dots = dotsOf({ ...batch, values: alike, least: null, most: null });
    expect(new Set(dots.map(({ py }) => py)).size).toBe(4);
  });
});

const trend: SmallTrendData = {
  name: 'THD',
  points: [
    { label: 'Heron 1', time: 0, value: 0.017, low: 0.016, high: 0.018, text: '1.7 %' },
    { label: 'Heron 2', time: 1e9, value: 0.003, text: '0.3 %' },
  ],
};

describe('a figure over versions', () => {
  it('says its values by version', () => {
    const { text, table } = chartOf(smallTrend(trend));
    expect(text.title).toBe('THD: 1.7 % at Heron 1 and 0.3 % at Heron 2');
    expect(table.rows).toEqual([
      ['Heron 1', '1.7 %'],
      ['Heron 2', '0.3 %'],
    ]);
  });

  it('puts a lower value lower, and an interval about its dot', () => {
    const { datasets } = chartOf(smallTrend(trend)).spec;
    const [first, second] = (datasets?.['dot'] ?? []) as { px: number; py: number }[];
    expect(second?.py).toBeGreaterThan(first?.py ?? 0);
    const [, interval] = (datasets?.['stroke'] ?? []) as { px: number; py: number; py2: number }[];
    expect(interval?.px).toBe(first?.px);
    expect(interval?.py).toBeGreaterThan(first?.py ?? 0);
    expect(interval?.py2).toBeLessThan(first?.py ?? 0);
  });

  it('draws without a warning, also of values and dates that are all alike', async () => {
    expect((await renderChart(chartOf(smallTrend(trend)))).warnings).toEqual([]);
    const alike = trend.points.map((point) => ({ ...point, time: 5, value: 1, low: 1, high: 1 }));
    const { datasets } = chartOf(smallTrend({ ...trend, points: alike })).spec;
    for (const { px, py } of (datasets?.['dot'] ?? []) as { px: number; py: number }[]) {
      expect(Number.isFinite(px) && Number.isFinite(py)).toBe(true);
    }
  });

  it('counts from zero, so that a small change looks small', () => {
    const near = trend.points.map((point, i) => ({
      label: point.label,
      time: point.time,
      value: 14.6 + i / 10,
      text: '',
    }));
    const { datasets } = chartOf(smallTrend({ ...trend, points: near })).spec;
    const [first, second] = (datasets?.['dot'] ?? []) as { py: number }[];
    // 0.1 of 14.7 on 28 pixels is a fifth of a pixel.
    expect(Math.abs((first?.py ?? 0) - (second?.py ?? 0))).toBeLessThan(0.2);
    expect(second?.py).toBe(0);
  });

  it('takes two versions', () => {
    expect(smallTrend({ ...trend, points: trend.points.slice(0, 1) })).toHaveProperty('absent');
  });
});
