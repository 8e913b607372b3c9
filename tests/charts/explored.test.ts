import { describe, expect, test } from 'vitest';
import type { ExploredChart } from '../../src/charts/explored.ts';
import type { Chart } from '../../src/charts/index.ts';
import { modelAndMeasured, oneThd, powerOverLoad, samples } from './samples.ts';
import { chartOf } from './support.ts';

function sample(name: string): Chart {
  const design = samples[name];
  if (!design) throw new Error(`There is no sample ${name}.`);
  return chartOf(design('wide'));
}

function exploredOf(name: string): ExploredChart {
  const { explored } = sample(name);
  if (!explored) throw new Error(`Nothing to explore in ${name}.`);
  return explored;
}

const axesOf = ({ x, panels }: ExploredChart) =>
  [x, ...panels].map(({ quantity, unit, kind }) => `${quantity}, ${unit}, ${kind}`);

describe('what a reader explores', () => {
  test.each([
    ['thd-against-frequency', ['Frequency, Hz, log', 'THD, %, log']],
    ['thd-against-power', ['Output power, W, log', 'THD, %, log']],
    ['response', ['Frequency, Hz, log', 'Level, dB re 1\u00a0kHz, linear']],
    ['predicted-harmonics', ['Output power, W, log', 'Harmonic, %, log']],
    ['power-against-load', ['Load, Ω, log', 'Output power, W, linear', 'Distortion, %, log']],
    ['load-over-frequency', ['Frequency, Hz, log', 'Output power, W, linear', 'Distortion, %, log']],
    [
      'dissipation-against-power',
      ['Output power, W, linear', 'Dissipation, W, linear', 'Efficiency, %, linear'],
    ],
    ['dissipation-against-load', ['Load, Ω, log', 'Dissipation, W, linear']],
    ['currents-over-cycle', ['From the crest of the first grid, °, linear', 'Plate current, mA, linear']],
  ])('of %s has the axes of the drawing', (name, axes) => {
    expect(axesOf(exploredOf(name))).toEqual(axes);
  });

  test('is every reading in per cent with its interval, however many columns of pixels the drawing has', () => {
    const [line] = exploredOf('thd-against-frequency').panels[0]?.lines ?? [];
    const [series] = oneThd.series;
    const percent = (ratio: ArrayLike<number | null> = []) =>
      Array.from(ratio, (value) => 100 * (value ?? 0));
    expect(line?.runs.flatMap(({ y }) => y)).toEqual(percent(series?.ratio));
    expect(line?.edges?.low.flatMap(({ y }) => y)).toEqual(percent(series?.low));
    expect(line?.edges?.high.flatMap(({ y }) => y)).toEqual(percent(series?.high));
  });

  test('keeps what was measured in points apart from the lines of the model', () => {
    const lines = exploredOf('predicted-harmonics').panels[0]?.lines ?? [];
    expect(lines.map(({ name }) => name)).toEqual(['H2 model', 'H3 model', 'H2 measured', 'H3 measured']);
    expect(lines.map(({ runs }) => runs.every(({ x }) => x.length === 1))).toEqual([
      false,
      false,
      true,
      true,
    ]);
    expect(lines[2]?.runs).toHaveLength(modelAndMeasured.measured.powerW.length);
  });

  test('of power over loads is power above and distortion below, at the loads that were computed', () => {
    const [power, distortion] = exploredOf('power-against-load').panels;
    expect(power?.lines[0]?.runs[0]?.x).toEqual(powerOverLoad.loadOhm);
    expect(distortion?.lines.map(({ name }) => name)).toEqual(['H3', 'H2', 'THD']);
  });

  test('is no path through the plate characteristics', () => {
    for (const name of ['load-line', 'reactive-path', 'combined-load-line']) {
      expect(sample(name).explored).toBeUndefined();
    }
  });
});
