import { expect, it } from 'vitest';
import { combinedLoadLine, currentsOverCycle } from '../../src/charts/index.ts';
import { pairCurrents, pairLoad } from './samples.ts';
import { chartOf } from './support.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

it('the combined load line says the load and how far each plate swings', () => {
  const { title, description } = chartOf(combinedLoadLine(pairLoad)).text;
  expect(plain(title)).toBe(
    'Two sides of 300B against each other into 4 kΩ from plate to plate: each plate swings from 140 V to 460 V',
  );
  expect(plain(description)).toContain('its slope is that of 1 kΩ, a quarter of the load');
});

it('a combined load line without a voltage at rest or a curve is absent', () => {
  expect(combinedLoadLine({ ...pairLoad, restV: Number.NaN })).toHaveProperty('absent');
  expect(combinedLoadLine({ ...pairLoad, combined: [] })).toHaveProperty('absent');
});

it('the currents say for how long a side is cut off, or that none is', () => {
  expect(plain(chartOf(currentsOverCycle(pairCurrents)).text.title)).toBe(
    'Each side is cut off for 39 % of the cycle; the current of a side reaches 160 mA',
  );
  expect(plain(chartOf(currentsOverCycle({ ...pairCurrents, cutOffShare: 0 })).text.title)).toMatch(
    /^Both sides conduct throughout the cycle/,
  );
});
