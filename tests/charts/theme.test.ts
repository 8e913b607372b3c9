import { describe, expect, it } from 'vitest';
import { type ChartColour, chartColours } from '../../src/charts/index.ts';
import { harmonicStyle, lineStyle } from '../../src/charts/theme.ts';

/** Relative luminance. @source WCAG 2.2, definition "relative luminance" (from memory) */
function luminance(hex: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [dark = 0, light = 0] = [luminance(a), luminance(b)].toSorted((x, y) => x - y);
  return (light + 0.05) / (dark + 0.05);
}

const { paper, rule, decade, ...drawn } = chartColours;
const schemes = ['light', 'dark'] as const;

it('the contrast of black on white is 21', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 9);
});

describe.each(schemes)('on %s paper', (scheme) => {
  const background = paper[scheme];

  // WCAG 2.2, 1.4.11 asks 3:1 of lines; labels are set in the colours of their lines, and 1.4.3 asks 4.5:1 of text.
  it.each(Object.entries(drawn))(
    '%s has the contrast of text, which is more than that of lines',
    (_, value: ChartColour) => {
      expect(contrast(value[scheme], background)).toBeGreaterThanOrEqual(4.5);
    },
  );

  it('rules are fainter than anything drawn, and decades stronger than the rules between', () => {
    const faint = contrast(rule[scheme], background);
    expect(faint).toBeGreaterThan(1.1);
    expect(contrast(decade[scheme], background)).toBeGreaterThan(faint);
    expect(contrast(decade[scheme], background)).toBeLessThan(3);
  });
});

it('every colour has a variable of its own and differs between the schemes', () => {
  const all: ChartColour[] = Object.values(chartColours);
  expect(new Set(all.map(({ variable }) => variable)).size).toBe(all.length);
  for (const { variable, light, dark } of all) {
    expect(variable).toMatch(/^--chart-[a-z0-9-]+$/);
    expect(light).not.toBe(dark);
  }
});

// P. Tol, Colour Schemes, issue 3.2 (2021), qualitative scheme "muted"; its nine colours without the grey for bad data.
it('data colours are members of the published scheme "muted"', () => {
  const muted = 'CC6677 332288 DDCC77 117733 88CCEE 882255 44AA99 999933 AA4499'.split(' ');
  const data: ChartColour[] = [
    chartColours.data1,
    chartColours.data2,
    chartColours.data3,
    chartColours.data4,
  ];
  for (const { light, dark } of data) {
    expect(muted).toContain(light.slice(1));
    expect(muted).toContain(dark.slice(1));
  }
});

it('no two of six lines, nor of the harmonics 2 to 5, differ in colour alone', () => {
  const distinct = (styles: ReturnType<typeof lineStyle>[]) =>
    new Set(styles.map(({ dash, weight }) => JSON.stringify([dash, weight]))).size;
  expect(distinct([0, 1, 2, 3, 4, 5].map(lineStyle))).toBe(6);
  expect(distinct([2, 3, 4, 5].map(harmonicStyle))).toBe(4);
});
