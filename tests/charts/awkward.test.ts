import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ChartResult,
  combinedLoadLine,
  currentsOverCycle,
  harmonicSpectrum,
  harmonicsAgainstFrequency,
  intermodulationSpectrum,
  loadLine,
  loadOverFrequency,
  powerAgainstLoad,
  predictedHarmonics,
  type Readings,
  reactivePath,
  renderChart,
  response,
  thdAgainstFrequency,
  thdAgainstPower,
  waveformExcerpt,
} from '../../src/charts/index.ts';

const finite = (value: number | null | undefined) => (Number.isFinite(value) ? (value ?? 0) : 0);

/** Every kind of chart made of the same two lists of readings. */
const kinds: Record<string, (x: Readings, y: Readings) => ChartResult> = {
  harmonicSpectrum: (x, y) =>
    harmonicSpectrum({
      channel: 'out',
      role: null,
      frequencyHz: x,
      rms: y,
      floorRms: y,
      fundamental: { frequencyHz: x[0] ?? 0, rms: y[0] ?? 0 },
      harmonics: Array.from(x, (hz, i) => ({
        order: i + 2,
        frequencyHz: hz ?? 0,
        ratio: y[i] ?? 0,
        detected: i % 2 === 0,
      })),
    }),
  intermodulationSpectrum: (x, y) =>
    intermodulationSpectrum({
      ...{ channel: 'out', role: null, frequencyHz: x, rms: y, floorRms: y, pattern: null },
      tones: {
        lower: { frequencyHz: x[0] ?? 0, rms: y[0] ?? 0 },
        upper: { frequencyHz: x[1] ?? 0, rms: y[1] ?? 0 },
      },
      lines: Array.from(x, (hz, i) => ({
        ...{ name: `f2 + ${i}f1`, frequencyHz: hz ?? 0, ratio: y[i] ?? 0, detected: i % 2 === 0 },
      })),
    }),
  waveformExcerpt: (x, y) =>
    waveformExcerpt({
      rateHz: 1000,
      fundamentalHz: null,
      channels: [
        { name: 'in', role: 'stimulus', unit: 'V', values: x },
        { name: 'out', role: 'response', unit: 'V', values: y },
      ],
    }),
  response: (x, y) =>
    response({
      quantity: 'Level',
      referenceHz: null,
      channels: [{ name: 'out', frequencyHz: x, levelDb: y }],
    }),
  thdAgainstFrequency: (x, y) =>
    thdAgainstFrequency({
      quantity: 'THD',
      series: [{ name: 'out', frequencyHz: x, ratio: y, low: y, high: y }],
    }),
  thdAgainstPower: (x, y) =>
    thdAgainstPower({
      quantity: 'THD',
      series: [
        { name: 'a', powerW: x, ratio: y },
        { name: 'b', powerW: y, ratio: x },
      ],
    }),
  harmonicsAgainstFrequency: (x, y) =>
    harmonicsAgainstFrequency({
      channel: 'out',
      frequencyHz: x,
      orders: [
        { order: 2, ratio: y },
        { order: 3, ratio: y },
      ],
    }),
  loadLine: (x, y) =>
    loadLine({
      device: 'device',
      curves: [{ gridV: 0, plateV: x, plateA: y }],
      loadLine: [
        { plateV: 0, plateA: y[0] ?? 0 },
        { plateV: x[0] ?? 0, plateA: 0 },
      ],
      loadOhm: 1000,
      operatingPoint: { plateV: x[1] ?? 0, plateA: y[1] ?? 0, gridV: -1 },
      swing: Array.from(x, (plateV, i) => ({ plateV: plateV ?? 0, plateA: y[i] ?? 0 })),
      dissipationLimitW: y[2] ?? null,
    }),
  reactivePath: (x, y) =>
    reactivePath({
      device: 'device',
      curves: [{ gridV: 0, plateV: x, plateA: y }],
      loadLine: null,
      loadOhm: null,
      operatingPoint: null,
      dissipationLimitW: null,
      path: Array.from(x, (plateV, i) => ({ plateV: plateV ?? 0, plateA: y[i] ?? 0 })),
      at: { frequencyHz: 20, loadOhm: 1000, phaseDeg: 45, thdRatio: 0.1 },
    }),
  loadOverFrequency: (x, y) =>
    loadOverFrequency({
      into: 'a loudspeaker',
      frequencyHz: x,
      ...{ powerW: y, loadOhm: y, phaseDeg: y, secondRatio: y, thirdRatio: y, thdRatio: y },
      worst: { frequencyHz: finite(x[0]), loadOhm: 1000, phaseDeg: 45, thdRatio: finite(y[0]) },
    }),
  predictedHarmonics: (x, y) => {
    const harmonics = { powerW: x, orders: [{ order: 2, ratio: y }] };
    return predictedHarmonics({ channel: 'out', model: harmonics, measured: harmonics });
  },
  combinedLoadLine: (x, y) =>
    combinedLoadLine({
      device: 'device',
      loadOhm: 1000,
      restV: x[1] ?? 0,
      combined: [{ inputV: 1, plateV: x, plateA: y }],
      sides: [{ plateV: x, plateA: y }],
      path: Array.from(x, (plateV, i) => ({ plateV: plateV ?? 0, plateA: y[i] ?? 0 })),
    }),
  currentsOverCycle: (x, y) => currentsOverCycle({ degrees: x, firstA: y, secondA: y, cutOffShare: 0 }),
  powerAgainstLoad: (x, y) =>
    powerAgainstLoad({
      loadOhm: x,
      powerW: y,
      secondRatio: y,
      thirdRatio: y,
      thdRatio: y,
      chosenOhm: x[0] ?? null,
      candidates: [
        { label: 'a rule with a long name that does not fit on a narrow drawing', loadOhm: x[1] ?? 0 },
      ],
    }),
};

const empty = new Float64Array(0);
const awkward: [string, Readings, Readings, 'absent' | 'drawn'][] = [
  ['no readings', empty, empty, 'absent'],
  ['one reading', [1000], [0.5], 'absent'],
  ['nothing but gaps', [1, 2, 3], [null, null, null], 'absent'],
  ['values that are not numbers', [1, 2, 3], [Number.NaN, Infinity, -Infinity], 'absent'],
  ['two readings', [100, 1000], [0.5, 0.25], 'drawn'],
  ['equal readings', [1, 10, 100], [0.5, 0.5, 0.5], 'drawn'],
  ['all at one place', [100, 100, 100], [0.1, 0.2, 0.3], 'drawn'],
  ['descending places', [1000, 100, 10], [0.1, 0.2, 0.3], 'drawn'],
];

describe.each(Object.entries(kinds))('%s', (kind, make) => {
  it.each(awkward)('with %s it draws a chart or says why there is none', async (_, x, y, outcome) => {
    const result = make(x, y);
    // A waveform takes both lists as samples, so that gaps in one of them still leave the other.
    const expected =
      kind === 'waveformExcerpt' && Array.from(x).filter((value) => value !== null).length > 1
        ? 'drawn'
        : outcome;
    expect('absent' in result ? 'absent' : 'drawn').toBe(expected);
    if ('absent' in result) expect(result.absent).toMatch(/^[A-Z].*\.$/);
    else expect((await renderChart(result)).svg).not.toMatch(/NaN|Infinity|undefined/);
    for (const row of result.table.rows) expect(row.join(' ')).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('draws any readings without throwing, warning or a number that is not finite', async () => {
    const value = fc.oneof(
      fc.constant(null),
      fc.constant(0),
      fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
      fc.double({ min: -1e3, max: 1e3, noNaN: true }),
    );
    const lists = fc.array(fc.tuple(value, value), { maxLength: 12 });
    await fc.assert(
      fc.asyncProperty(lists, async (pairs) => {
        const result = make(
          pairs.map(([x]) => x),
          pairs.map(([, y]) => y),
        );
        if ('absent' in result) return;
        const { svg, warnings, title, description } = await renderChart(result);
        expect(warnings).toEqual([]);
        expect(`${svg}${title}${description}`).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { numRuns: 40, seed: 20260101 },
    );
  });
});

describe('what has no place on the axes is left out and said', () => {
  it('a zero on a logarithmic axis breaks the line and is counted in description and table note', () => {
    const result = thdAgainstFrequency({
      quantity: 'THD',
      series: [{ name: 'out', frequencyHz: [20, 50, 100, 200, 500], ratio: [0.01, 0.02, 0, 0.02, 0.01] }],
    });
    if ('absent' in result) throw new Error(result.absent);
    const rows = (result.spec.datasets?.['curve'] ?? []) as { x: number; run: string }[];
    expect(rows.map(({ x }) => x)).toEqual([20, 50, 200, 500]);
    expect(new Set(rows.map(({ run }) => run)).size).toBe(2);
    const sentence = 'out: 1 reading at or below zero has no place on a logarithmic axis and is not drawn.';
    expect(result.text.description).toContain(sentence);
    expect(result.table.note).toContain(sentence);
    expect(result.table.rows).toContainEqual(['100', '0']);
  });

  it('a reading between two gaps is drawn as a point', () => {
    const result = response({
      quantity: 'Level',
      referenceHz: 1000,
      channels: [{ name: 'out', frequencyHz: [20, 50, 100, 200, 500], levelDb: [0, 0, null, -1, null] }],
    });
    if ('absent' in result) throw new Error(result.absent);
    expect(result.spec.datasets?.['lone']).toMatchObject([{ x: 200, y: -1 }]);
    expect(result.text.description).toContain('out: 2 readings have no value and are not drawn.');
    expect(result.table.rows).toContainEqual(['100', '–']);
  });

  it('a spectrum beyond a hundred times the fundamental is cut and said so', () => {
    const frequencyHz = [5, 50, 100, 1000, 10_001];
    const result = harmonicSpectrum({
      channel: 'out',
      role: null,
      frequencyHz,
      rms: [1, 1, 1, 1, 1],
      floorRms: null,
      fundamental: { frequencyHz: 100, rms: 1 },
      harmonics: [],
    });
    if ('absent' in result) throw new Error(result.absent);
    expect(result.table.note).toContain(
      'The drawing shows 5\u00a0Hz to 1\u00a0kHz; the rest of the data lies outside of it.',
    );
  });
});
