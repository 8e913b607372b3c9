import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import {
  contrastOnGrounds,
  grounds,
  leastContrast,
  legibleShade,
} from '../../src/journal/publishing/accent.ts';
import { colourText, contrastOf, readColour } from '../../src/journal/publishing/contrast.ts';
import { coloursCss } from '../../src/site/colours.ts';
import { problemsOf, settings } from '../support/journal.ts';

const rgb = (text: string) => {
  const colour = readColour(text);
  if (!colour) throw new Error(`${text} is no colour.`);
  return colour;
};

describe('contrast', () => {
  test.each([
    // The ends of the scale follow from the definition in WCAG 2.2: 1.05 / 0.05 = 21.
    ['#000000', '#ffffff', 21],
    ['#123456', '#123456', 1],
    // The formula of WCAG 2.2 for a grey of 0x76 on white: linear ((118/255 + 0.055)/1.055)^2.4 = 0.18116.
    ['#767676', '#ffffff', 1.05 / (0.181_164 + 0.05)],
    // A part below 0.04045 is divided by 12.92: 10/255/12.92 = 0.0030353.
    ['#0a0a0a', '#000000', (0.003_035_27 + 0.05) / 0.05],
  ])('of %s on %s is as WCAG 2.2 defines it', (one, other, ratio) => {
    // Six digits of the worked values.
    expect(contrastOf(rgb(one), rgb(other))).toBeCloseTo(ratio, 4);
    expect(contrastOf(rgb(other), rgb(one))).toBe(contrastOf(rgb(one), rgb(other)));
  });

  test('is measured against the paper and the bands of the style sheet', () => {
    const tokens = readFileSync('components/styles/tokens.css', 'utf8');
    const pair = (name: string) =>
      new RegExp(`--${name}: light-dark\\((#\\w+), (#\\w+)\\)`).exec(tokens)?.slice(1) ?? [];
    const [lightPaper, darkPaper] = pair('paper');
    const [lightBand, darkBand] = pair('band');
    expect(grounds.light.map(colourText)).toEqual([lightPaper, lightBand]);
    expect(grounds.dark.map(colourText)).toEqual([darkPaper, darkBand]);
    const [light = '', dark = ''] = pair('accent');
    expect(coloursCss({ colours: { accent: { light: '#7a1f5c' } } })).toContain(`(#7a1f5c, ${dark})`);
    expect(coloursCss({ colours: { accent: { dark: '#ffffff' } } })).toContain(`(${light}, #ffffff)`);
    expect(coloursCss({ colours: { accent: {} } })).toBeNull();
  });

  test.each(['#ffffff', '#ff8800', '#00ff00', '#7a1f5c', '#000000', '#88ccee'])(
    'of the shade offered for %s does on either paper',
    (text) => {
      for (const appearance of ['light', 'dark'] as const) {
        const shade = rgb(legibleShade(rgb(text), appearance));
        expect(contrastOnGrounds(shade, appearance)).toBeGreaterThanOrEqual(leastContrast);
      }
    },
  );
});

describe('a colour in journal.yaml', () => {
  const withColours = (colours: string) => problemsOf({ 'journal.yaml': `${settings}colours:\n${colours}` });

  test('that can be read is taken', async () => {
    expect(await withColours('  accent: { light: "#7a1f5c", dark: "#e6a5cd" }\n')).toBe('\n\n');
  });

  test('that is too faint is refused with its contrast and a shade that does', async () => {
    expect(await withColours('  accent:\n    light: "#ff8800"\n')).toBe(`
journal.yaml:5:12 error colour-contrast
  Text in #ff8800 would have a contrast of 2.08:1 on light paper; 4.5:1 is the least that WCAG 2.2 asks for (1.4.3).
  The nearest darker shade that does is "#a65800".
`);
  });

  test('that is dark on dark paper is refused too', async () => {
    expect(await withColours('  accent:\n    dark: "#0f5a56"\n')).toMatch(
      /journal\.yaml:5:11 error colour-contrast\n.*on dark paper.*\n.*lighter shade/,
    );
  });

  test('that is no colour is refused', async () => {
    expect(await withColours('  accent:\n    light: teal\n')).toBe(`
journal.yaml:5:12 error colour
  "teal" is not a colour as it is written here.
  Write # and six digits from 0 to f in quotes, two each for red, green and blue: "#0f5a56".
`);
  });

  test('leaves the charts and the warnings as they are', async () => {
    expect(await withColours('  mark: "#7a1f5c"\n  accent: {}\n')).toMatch(/unknown-key\n.*"mark"/);
  });
});

test('a word that journal.yaml may not change is told, with those that it may', async () => {
  const problems = await problemsOf({ 'journal.yaml': `${settings}words:\n  latestlogs: This month\n` });
  expect(problems).toMatch(/journal\.yaml:4:3 error unknown-key\n.*\n {2}Did you mean latestLogs\?/);
});
