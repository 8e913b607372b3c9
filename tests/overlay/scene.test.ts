import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  csvHeader,
  csvRows,
  cursorMarks,
  cursorPlaces,
  cursorText,
  type Mark,
  nearestPlace,
  norms,
  overlayAxes,
  overlayTitle,
  type Plot,
  plotOf,
  sceneOf,
  type Trace,
  type View,
  viewOf,
} from '../../src/overlay/index.ts';
import { octaves, traceOf } from './support.ts';

function view(id: string): View {
  const found = viewOf(id);
  if (found === null) throw new Error(`No view ${id}`);
  return found;
}

function plot(traces: readonly Trace[], id = 'thd-frequency', size: 'wide' | 'narrow' = 'wide'): Plot {
  const found = plotOf(traces, view(id), size);
  if (found === null) throw new Error('Nothing is drawn.');
  return found;
}

const percent = traceOf('one', octaves(20, 10), (x) => 0.1 + x / 10000);
const half = traceOf('half', octaves(20, 10), (x) => 0.05 + x / 20000);
const words = (marks: readonly Mark[]) => marks.flatMap(({ text }) => text ?? []);
const numbersIn = (marks: readonly Mark[]) =>
  marks.flatMap(({ attributes }) => Object.values(attributes).filter((value) => typeof value === 'number'));

describe('the drawing', () => {
  test('has its places on a logarithmic axis: the geometric middle stands in the middle', () => {
    const { panel } = plot([percent]);
    const [low, high] = panel.x.domain;
    const [rule] = cursorMarks(plot([percent]), Math.sqrt(low * high));
    // Halves of one length: exact but for the last digit.
    expect(rule?.attributes['x1']).toBeCloseTo(panel.x.length / 2, 9);
  });

  test('names the axis with its unit, and every line at its end', () => {
    const scene = sceneOf(plot([percent, half]), overlayAxes(view('thd-frequency'), '%'));
    expect(words(scene.around)).toEqual(
      expect.arrayContaining(['Frequency, Hz', 'THD, %', 'one', 'half', '1k']),
    );
  });

  test('tells lines apart by dash as well as by colour', () => {
    const curves = sceneOf(plot([percent, half]), overlayAxes(view('thd-frequency'), '%')).plot;
    const drawn = curves.filter(({ tag }) => tag === 'path').map(({ attributes }) => attributes);
    expect(new Set(drawn.map(({ stroke }) => stroke)).size).toBe(2);
    expect(new Set(drawn.map((path) => path['stroke-dasharray'])).size).toBe(2);
  });

  test('shows an interval as an area from its upper to its lower end', () => {
    const trace = traceOf('with interval', [100, 1000], () => 1, { low: [0.5, 0.5], high: [2, 2] });
    const lower = traceOf('lower', [100, 1000], () => 0.2);
    const drawn = plot([trace, lower]);
    const [area] = sceneOf(drawn, overlayAxes(view('thd-frequency'), '%')).plot;
    const path = String(area?.attributes['d']);
    const heights = [...path.matchAll(/[ML][\d.]+ ([\d.]+)/g)].map(([, up]) => Number(up));
    const [low, high] = drawn.panel.y.domain;
    const at = (value: number) => drawn.panel.y.length * (1 - Math.log(value / low) / Math.log(high / low));
    expect(heights).toHaveLength(4);
    // Paths are written to a tenth of a pixel.
    for (const [i, value] of [2, 2, 0.5, 0.5].entries()) expect(heights[i]).toBeCloseTo(at(value), 0);
  });

  test('draws the noise floor of a spectrum, and its axis begins near it however deep single lines dip', () => {
    const spectrum = traceOf('s', octaves(20, 10, 40), (x) => (x < 21 ? -400 : -100), {
      ...{ view: 'spectrum', unit: 'dBV', floor: octaves(20, 10, 40).map(() => -95) },
    });
    const drawn = plot([spectrum], 'spectrum');
    expect(drawn.panel.y.domain[0]).toBeGreaterThan(-200);
    const lines = sceneOf(drawn, overlayAxes(view('spectrum'), 'dBV')).plot;
    expect(lines.filter(({ attributes }) => attributes['stroke-dasharray'] === '4 2')).toHaveLength(1);
  });

  test('of the same levels keeps a few decibels of axis, so that nothing is blown up to look large', () => {
    const level = (title: string, db: number) => traceOf(title, octaves(20, 10), () => db, { unit: 'dB' });
    const { panel } = plot([level('a', 0), level('b', 0.01)], 'response');
    expect(panel.y.domain[1] - panel.y.domain[0]).toBeGreaterThanOrEqual(4);
  });

  test('needs two neighbouring readings on one trace', () => {
    expect(plotOf([traceOf('lone', [1000], () => 1)], view('thd-frequency'), 'wide')).toBeNull();
    expect(plotOf([], view('thd-frequency'), 'wide')).toBeNull();
  });

  test('of any readings has only finite numbers', () => {
    const readings = fc.array(
      fc.tuple(fc.double({ min: 1e-3, max: 1e6, noNaN: true }), fc.option(fc.double({ noNaN: true }))),
      { minLength: 1, maxLength: 30 },
    );
    const kinds = fc.constantFrom(
      ['thd-frequency', '%'],
      ['thd-power', '%'],
      ['response', 'dB'],
      ['impedance', 'Ω'],
    );
    fc.assert(
      fc.property(
        readings,
        kinds,
        fc.constantFrom('wide', 'narrow'),
        (points, [id = '', unit = ''], size) => {
          const y = points.map(([, value]) => value);
          const trace = {
            ...traceOf(
              'any',
              points.map(([x]) => x),
              () => null,
            ),
            y,
            unit,
          };
          const drawn = plotOf([trace, percent].slice(0, 1), view(id), size);
          if (drawn === null) return;
          const scene = sceneOf(drawn, overlayAxes(view(id), unit));
          const marks = [...scene.plot, ...scene.around, ...cursorMarks(drawn, points[0]?.[0] ?? 1)];
          for (const number of numbersIn(marks)) expect(Number.isFinite(number)).toBe(true);
          for (const { attributes } of marks) expect(String(attributes['d'])).not.toMatch(/NaN|Infinity/);
        },
      ),
    );
  });
});

describe('the cursor', () => {
  test('steps through the readings of all traces in order, each place once', () => {
    const a = traceOf('a', [100, 10, 1000], () => 1);
    const b = traceOf('b', [10, 50, 70], (x) => (x === 70 ? null : 1));
    expect(cursorPlaces([a, b])).toEqual([10, 50, 100, 1000]);
  });

  test('of long records steps through 600 places', () => {
    const long = traceOf(
      'long',
      Array.from({ length: 5000 }, (_, i) => i + 1),
      () => 1,
    );
    const places = cursorPlaces([long]);
    expect(places).toHaveLength(600);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  test('goes to the reading that lies nearest on the axis: 30 lies nearer to 50 than to 10 by ratio', () => {
    expect(nearestPlace([10, 50, 100], 30)).toBe(1);
    expect(nearestPlace([10, 50, 100], 22)).toBe(0);
  });

  test('has a disc on every line that has a value there', () => {
    const short = traceOf('short', [20, 100], () => 1);
    const discs = cursorMarks(plot([percent, short]), 1000).filter(({ tag }) => tag === 'circle');
    expect(discs).toHaveLength(1);
    expect(cursorMarks(plot([percent]), 5)).toEqual([]);
  });

  test('says place and values with their units, and where there is none', () => {
    const short = traceOf('short', [20, 100], () => 1);
    expect(cursorText([percent, short], 1000, view('thd-frequency'))).toBe(
      'at 1.00\u00a0kHz: 0.200\u00a0% for one; no reading for short',
    );
  });

  test('at 1 kHz gives the title, unless everything is held to zero there', () => {
    const state = { view: view('thd-frequency'), traces: ['one'], reference: null, cursor: null };
    expect(overlayTitle({ ...state, norm: norms.none }, [percent])).toBe(
      'THD, at 1.00\u00a0kHz: 0.200\u00a0% for one',
    );
    expect(overlayTitle({ ...state, norm: norms.oneKilohertz }, [percent])).toBe(
      'THD against frequency, to its value at 1 kHz: 1 trace',
    );
  });
});

test('the file has a row for each reading, with interval and floor where there are any', () => {
  const one = traceOf('a, b', [100, 200], (x) => (x === 100 ? 1 / 3 : null), {
    low: [0.3, 0.3],
    high: [0.4, 0.4],
  });
  expect(csvHeader({ view: view('thd-power') })[2]).toBe('power_w');
  expect(csvRows([one], '%')).toEqual([
    ['a, b', 'a, b', 100, 0.333333, '%', 0.3, 0.4, null],
    ['a, b', 'a, b', 200, null, '%', 0.3, 0.4, null],
  ]);
});
