import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { ExploredChart, ExploredLine } from '../../src/charts/explored.ts';
import { lineStyle } from '../../src/charts/theme.ts';
import {
  axesText,
  exploredFrom,
  exploredPlace,
  holding,
  isWhole,
  markedPlaces,
  markMarks,
  placesIn,
  plotsOf,
  readingsAt,
  readingsSentence,
  readingText,
  stretchBetween,
  wholeOf,
  zoomed,
} from '../../src/overlay/explored/index.ts';
import { type Curve, cursorMarks, sceneOf } from '../../src/overlay/index.ts';
import { octaves, traceOf } from './support.ts';

const lineOf = (name: string, x: number[], y: number[], more: Partial<ExploredLine> = {}): ExploredLine => ({
  ...{ name, runs: [{ x, y }], style: lineStyle(0) },
  ...more,
});

const frequency = { quantity: 'Frequency', unit: 'Hz', kind: 'log' } as const;

const percentChart = (...lines: ExploredLine[]): ExploredChart => ({
  x: frequency,
  panels: [{ quantity: 'THD', unit: '%', kind: 'log', lines }],
});

const places = [20, 200, 2000, 20_000];
const falling = lineOf('falling', places, [8, 4, 2, 1]);
const flat = lineOf('flat', places, [0.1, 0.1, 0.1, 0.1]);
const chart = percentChart(falling, flat);
const all = (of: ExploredChart) => ({
  lines: new Set(of.panels.flatMap(({ lines }) => lines)),
  stretch: wholeOf(of).whole,
  size: 'wide' as const,
});

describe('the stretch of an axis', () => {
  const axis = { whole: [20, 20_000], kind: 'log' } as const;

  test('goes closer about a place that keeps its share: half of three decades about the middle is 1.5 decades', () => {
    const [from, to] = zoomed(axis.whole, 0.5, Math.sqrt(20 * 20_000), axis);
    // Exponents and back: exact to rounding.
    expect(Math.log10(to / from)).toBeCloseTo(1.5, 9);
    expect(Math.sqrt(from * to)).toBeCloseTo(Math.sqrt(20 * 20_000), 6);
  });

  test('is exactly the whole again when it is made wider, and stays inside it', () => {
    const near = zoomed(axis.whole, 0.25, 20, axis);
    expect(near[0]).toBe(20);
    expect(zoomed(near, 8, 20, axis)).toEqual([20, 20_000]);
    expect(isWhole(zoomed(near, 8, 20, axis), axis)).toBe(true);
  });

  test('between two places has any order, and does not become nothing', () => {
    const dragged = stretchBetween(5000, 50, axis);
    expect(dragged[0]).toBeCloseTo(50, 9);
    expect(dragged[1]).toBeCloseTo(5000, 9);
    const [from, to] = stretchBetween(1000, 1000, axis);
    expect(to).toBeGreaterThan(from);
  });

  test('moves with a cursor that leaves it, and otherwise stays', () => {
    const near = stretchBetween(100, 200, axis);
    expect(holding(near, 150, axis)).toBe(near);
    const moved = holding(near, 5000, axis);
    expect(moved[0]).toBeLessThan(5000);
    expect(moved[1]).toBeGreaterThan(5000);
    // The width is kept: an octave.
    expect(moved[1] / moved[0]).toBeCloseTo(2, 9);
  });

  test('on linear axes counts in the unit', () => {
    const watts = { whole: [0, 10], kind: 'linear' } as const;
    expect(zoomed(watts.whole, 0.5, 5, watts)).toEqual([2.5, 7.5]);
  });

  test('never leaves the whole, whatever is done to it', () => {
    const step = fc.record({
      factor: fc.double({ min: 0.01, max: 100, noNaN: true }),
      about: fc.double({ min: 1, max: 1e6, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(step, { maxLength: 12 }), (steps) => {
        let stretch: readonly [number, number] = axis.whole;
        for (const { factor, about } of steps) stretch = zoomed(stretch, factor, about, axis);
        expect(stretch[0]).toBeGreaterThanOrEqual(20);
        expect(stretch[1]).toBeLessThanOrEqual(20_000);
        expect(stretch[1]).toBeGreaterThan(stretch[0]);
      }),
    );
  });
});

describe('the drawing', () => {
  test('of a part of the axis reads at its edges what the whole line reads there', () => {
    const [plot] = plotsOf(chart, { ...all(chart), stretch: [63.245553, 632.45553] });
    const run = plot?.lines[0]?.runs[0];
    // Half way between readings an octave apart, on logarithmic axes: 8/√2 and 4/√2.
    expect(run?.x).toEqual([63.245553, 200, 632.45553]);
    expect(run?.y[0]).toBeCloseTo(8 / Math.SQRT2, 6);
    expect(run?.y[2]).toBeCloseTo(4 / Math.SQRT2, 6);
  });

  test('keeps its axes when a line is taken away', () => {
    const both = plotsOf(chart, all(chart));
    const one = plotsOf(chart, { ...all(chart), lines: new Set([flat]) });
    expect(one.map(({ panel, frame }) => [panel, frame])).toEqual(
      both.map(({ panel, frame }) => [panel, frame]),
    );
    expect(one[0]?.lines.map(({ name }) => name)).toEqual(['flat']);
  });

  test('of a part keeps the height, and has a vertical axis of what is read there', () => {
    const alone = percentChart(falling);
    const [whole] = plotsOf(alone, all(alone));
    const [part] = plotsOf(alone, { ...all(alone), stretch: [2000, 20_000] });
    expect(part?.panel.y.length).toBe(whole?.panel.y.length);
    expect(part?.panel.y.domain).toEqual([1, 2]);
  });

  test('of two quantities has a panel for each over the same axis, and names lines where there are several', () => {
    const watts = {
      quantity: 'Output power',
      unit: 'W',
      kind: 'linear' as const,
      lines: [lineOf('P', [20, 200], [1, 2])],
    };
    const two = { ...chart, panels: [watts, ...chart.panels] };
    const plots = plotsOf(two, all(two));
    expect(plots.map(({ isNamed }) => isNamed)).toEqual([false, true]);
    expect(plots[0]?.panel.x).toEqual(plots[1]?.panel.x);
    const scenes = plots.map((plot, i) => sceneOf(plot, axesText(two, two.panels[i] ?? watts)));
    const texts = scenes.map(({ around }) => around.flatMap(({ text }) => text ?? []));
    expect(texts[0]).toEqual(expect.arrayContaining(['Output power, W', 'Frequency, Hz']));
    expect(texts[0]).not.toContain('P');
    expect(texts[1]).toEqual(expect.arrayContaining(['THD, %', 'falling', 'flat']));
  });

  test('of a short stretch still has numbers on its axis', () => {
    const [plot] = plotsOf(chart, { ...all(chart), stretch: [1010, 1090] });
    if (!plot) throw new Error('Nothing is drawn.');
    const texts = sceneOf(plot, axesText(chart, frequency)).around.flatMap(({ text }) => text ?? []);
    expect(texts).toEqual(expect.arrayContaining(['1.02k', '1.04k']));
  });

  test('of any readings and stretch has only finite numbers', () => {
    const reading = fc.tuple(
      fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
      fc.double({ min: 1e-9, max: 1e9, noNaN: true }),
    );
    const nextToEachOther: [number, number][] = [
      [0.001, 1e-9],
      [0.001 + 2 ** -62, 1e-9],
    ];
    fc.assert(
      fc.property(
        fc.array(reading, { minLength: 1, maxLength: 20 }),
        fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 1, noNaN: true })),
        fc.constantFrom('log', 'linear'),
        (points, [one, other], kind) => {
          const sorted = points.toSorted(([a], [b]) => a - b);
          const line = lineOf(
            'any',
            sorted.map(([x]) => x),
            sorted.map(([, y]) => y),
          );
          const drawn: ExploredChart = {
            x: { ...frequency, kind },
            panels: [{ quantity: 'Any', unit: kind === 'log' ? '%' : 'dB', kind, lines: [line] }],
          };
          const axis = wholeOf(drawn);
          const [low, high] = axis.whole;
          const stretch = stretchBetween(low + one * (high - low), low + other * (high - low), axis);
          for (const plot of plotsOf(drawn, { ...all(drawn), stretch })) {
            const scene = sceneOf(plot, axesText(drawn, drawn.x));
            for (const { attributes } of [...scene.plot, ...scene.around, ...cursorMarks(plot, stretch[0])]) {
              expect(Object.values(attributes).join(' ')).not.toMatch(/NaN|Infinity/);
            }
          }
        },
      ),
      { examples: [[nextToEachOther, [0, 0], 'log']] },
    );
  });
});

describe('what the cursor reads', () => {
  const banded = lineOf('banded', [100, 1000], [1, 1], {
    edges: { low: [{ x: [100], y: [0.5] }], high: [{ x: [100, 1000], y: [2, 2] }] },
  });

  test('is each line between its readings, with the ends of its interval', () => {
    const said = readingsAt(percentChart(banded, falling), 100).map(readingText);
    // 100 lies 0.699 of a decade above 20: 8 · 2^-0.699.
    expect(said).toEqual(['1.00\u00a0% (0.500 to 2.00)', '4.93\u00a0%']);
  });

  test('has an interval from zero where its lower end has no place on the axis', () => {
    expect(readingsAt(percentChart(banded), 1000).map(readingText)).toEqual(['1.00\u00a0% (0 to 2.00)']);
  });

  test('is nothing outside of the readings of a line', () => {
    expect(readingsAt(percentChart(banded), 50).map(readingText)).toEqual(['no reading']);
  });

  test('is told in one sentence', () => {
    expect(readingsSentence(chart, 200, readingsAt(chart, 200))).toBe(
      'At 200.0\u00a0Hz: falling 4.00\u00a0%; flat 0.100\u00a0%.',
    );
  });

  test('stops at the readings of the lines it is given, inside the stretch', () => {
    expect(placesIn([falling, lineOf('other', [500, 20, 90_000], [1, 1, 1])], [20, 2000])).toEqual([
      20, 200, 500, 2000,
    ]);
  });
});

describe('named places', () => {
  const spectrum: ExploredChart = {
    x: frequency,
    panels: [
      {
        ...{ quantity: 'Level', unit: 'dB re fundamental', kind: 'linear' },
        lines: [lineOf('out', [1000, 1994, 2000, 2006, 5000], [0, -80, -40, -70, -90])],
      },
    ],
    marks: [
      { name: 'H2', at: 1997 },
      { name: 'H3', at: 3000 },
    ],
  };

  test('stand for the highest reading beside them, and one without a reading for none', () => {
    expect(markedPlaces(spectrum)).toEqual([2000]);
    expect(exploredPlace(spectrum, 2000)).toBe('2.000\u00a0kHz, H2');
    expect(exploredPlace(spectrum, 1000)).toBe('1.000\u00a0kHz');
  });

  test('have a rule each, and a name where it stands clear of the one before', () => {
    const crowded = { ...spectrum, marks: [...(spectrum.marks ?? []), { name: 'H3b', at: 3010 }] };
    const [plot] = plotsOf(crowded, all(crowded));
    if (!plot) throw new Error('Nothing is drawn.');
    const marks = markMarks(plot, crowded);
    expect(marks.filter(({ tag }) => tag === 'line')).toHaveLength(3);
    expect(marks.flatMap(({ text }) => text ?? [])).toEqual(['H2', 'H3']);
  });
});

describe('the published curves of a capture', () => {
  const curve = (view: string, more: Partial<Curve> = {}): Curve => {
    const { id: _id, title: _title, ...own } = traceOf('out', octaves(20, 10), (x) => 1 + x / 1e5);
    return { ...own, view, ...more };
  };

  test('become harmonics told apart by order', () => {
    const curves = [curve('harmonic-2-power'), curve('harmonic-3-power')];
    const views = ['harmonic-2-power', 'harmonic-3-power'];
    const found = exploredFrom(curves, { views, channels: ['out'] });
    expect(found?.x.unit).toBe('W');
    expect(found?.panels[0]?.quantity).toBe('Harmonic');
    expect(found?.panels[0]?.lines.map(({ name }) => name)).toEqual(['H2', 'H3']);
    expect(new Set(found?.panels[0]?.lines.map(({ style }) => style.stroke)).size).toBe(2);
  });

  test('become a spectrum re its fundamental with its floor, below which the axis does not reach far', () => {
    const dips = curve('spectrum', {
      ...{ unit: 'dBV', carrier: 6, y: octaves(20, 10).map((_, i) => (i === 3 ? -300 : -80)) },
      floor: octaves(20, 10).map(() => -90),
    });
    const found = exploredFrom([dips], {
      ...{ views: ['spectrum'], channels: ['out'], re: { unit: 'dB re fundamental', decibels: [6] } },
      marks: [{ name: 'H2', at: 40 }],
    });
    const lines = found?.panels[0]?.lines ?? [];
    expect(lines.map(({ name }) => name)).toEqual(['out', 'noise floor']);
    expect(lines.map(({ runs }) => runs[0]?.y[0])).toEqual([-86, -96]);
    expect(found?.marks).toHaveLength(1);
    if (!found) throw new Error('No chart.');
    const [plot] = plotsOf(found, all(found));
    expect(plot?.panel.y.domain[0]).toBeGreaterThan(-160);
  });

  test('keep the interval of each reading', () => {
    const x = octaves(20, 10);
    const found = exploredFrom([curve('thd-frequency', { low: x.map(() => 0.5), high: x.map(() => 3) })], {
      ...{ views: ['thd-frequency'], channels: ['out'] },
    });
    expect(found && readingsAt(found, 1000).map(readingText)).toEqual(['1.01\u00a0% (0.500 to 3.00)']);
  });

  test('that are not there make no chart', () => {
    expect(exploredFrom([curve('response')], { views: ['impedance'], channels: ['out'] })).toBeNull();
    expect(exploredFrom([], { views: [], channels: [] })).toBeNull();
  });
});
