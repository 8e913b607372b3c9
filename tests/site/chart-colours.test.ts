import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { chartColours } from '../../src/charts/index.ts';

const css = readFileSync('components/styles/chart-colours.css', 'utf8').toLowerCase();
const [screen = '', print = ''] = css.split('@media print');
const coloursIn = (text: string, variable: string) =>
  new RegExp(`${variable}: ([^;]+);`).exec(text)?.[1]?.match(/#[0-9a-f]{6}/g);

test.each(Object.values(chartColours))(
  '$variable is in the style sheet as the charts define it',
  ({ variable, light, dark }) => {
    expect(coloursIn(screen, variable)).toEqual([light.toLowerCase(), dark.toLowerCase()]);
    expect(coloursIn(print, variable), 'paper is light').toEqual([light.toLowerCase()]);
  },
);
