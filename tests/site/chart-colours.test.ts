import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { chartColours } from '../../src/charts/index.ts';

const css = readFileSync('components/styles/chart-colours.css', 'utf8');
const [light = '', dark = '', print = ''] = css.split(/@media[^{]+\{/);
const valueIn = (text: string, variable: string) =>
  new RegExp(`${variable}: (#[0-9a-f]{6})`, 'i').exec(text)?.[1]?.toLowerCase();

test.each(Object.values(chartColours))(
  '$variable is in the style sheet as the charts define it',
  (colour) => {
    expect(valueIn(light, colour.variable)).toBe(colour.light.toLowerCase());
    expect(valueIn(dark, colour.variable)).toBe(colour.dark.toLowerCase());
    expect(valueIn(print, colour.variable), 'paper is light').toBe(colour.light.toLowerCase());
  },
);
