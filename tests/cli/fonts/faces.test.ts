import { expect, test } from 'vitest';
import { fontFaces, isFor } from '../../../src/cli/fonts/font-faces.ts';
import { earlySign, preloadLinks } from '../../../src/cli/fonts/preloads.ts';
import { renewedPage } from '../../../src/cli/fonts/renewed-page.ts';

const sheet = `@font-face{font-family:"Source Serif 4 Variable";font-style:italic;font-weight:400 700;
src:url(/notes/assets/serif.AbCd_-12.woff2)format("woff2");unicode-range:U+4??,U+131,U+2000-206F}
@font-face{font-family:Stand-in;src:local("Arial");size-adjust:97%}
@font-face { font-family: 'Noto Sans Math'; src: url("maths.woff2") format("woff2"); }
p{color:red}`;

test('faces are read from a built sheet with their weights and ranges; a stand-in has no file', () => {
  const [serif, maths, ...more] = fontFaces(sheet);
  expect(more).toEqual([]);
  expect(serif).toMatchObject({
    family: 'Source Serif 4 Variable',
    style: 'italic',
    weights: [400, 700],
    file: 'serif.AbCd_-12.woff2',
    ranges: [
      [0x400, 0x4ff],
      [0x131, 0x131],
      [0x2000, 0x206f],
    ],
  });
  expect(maths).toMatchObject({ family: 'Noto Sans Math', weights: [400, 400], file: 'maths.woff2' });
  expect([0x3ff, 0x400, 0x131, 0x206f, 0x2070].map((point) => serif && isFor(serif, point))).toEqual([
    false,
    true,
    true,
    true,
    false,
  ]);
});

test('pages ask early for the fonts that they surely need, ahead of the sheet under its new name', () => {
  const html = '<head><link rel="stylesheet" href="/notes/assets/Base.a_-b1.css"></head><p class="question">';
  const preloads = [
    { file: 'serif.woff2', sign: '' },
    { file: 'italic.woff2', sign: '<p class="question"' },
    { file: 'maths.woff2', sign: '<math' },
  ];
  const page = renewedPage(html, [
    { before: 'Base.a_-b1.css', after: 'Base.new.css', preloads, kept: [], outdated: [] },
  ]);
  const link = (file: string) =>
    `<link rel="preload" as="font" type="font/woff2" href="/notes/assets/${file}" crossorigin>`;
  expect(page).toBe(
    `<head>${link('serif.woff2')}${link('italic.woff2')}<link rel="stylesheet" href="/notes/assets/Base.new.css"></head><p class="question">`,
  );
  expect(preloadLinks('<math></math>', preloads, '/')).toContain('maths.woff2');
});

test('a face of other letters than Latin waits until a browser asks for it', () => {
  const [serif, maths] = fontFaces(sheet);
  expect(serif && earlySign(serif)).toBeNull();
  expect(maths && earlySign(maths)).toBe('<math');
});
