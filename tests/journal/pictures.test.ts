import { describe, expect, test } from 'vitest';
import { proseOf } from '../support/journal.ts';

const drawing = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 4 3"></svg>';
/** One pixel. */
const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);
const files = { 'logs/first/bench.svg': drawing, 'logs/first/bench.png': png };
const htmlOf = async (body: string) => {
  const { html, problems } = await proseOf(body, files);
  expect(problems).toBe('\n\n');
  return (html ?? '').replaceAll('&#x22;', '"');
};

describe('a picture with a title', () => {
  test('that stands alone is a figure with the title as its caption', async () => {
    const html = await htmlOf('![The bench](bench.png "The bench in January, 3 & 4")\n');
    expect(html).toMatch(
      /^<figure class="picture"><img [^>]+><figcaption>The bench in January, 3 &#x26; 4<\/figcaption><\/figure>$/,
    );
    expect(html).not.toContain('"title"');
  });

  test('by reference is one as well', async () => {
    const html = await htmlOf('![The bench][b]\n\n[b]: bench.svg "In January"\n');
    expect(html).toContain('<figcaption>In January</figcaption>');
  });

  test('within a sentence stays there', async () => {
    const html = await htmlOf('Here: ![The bench](bench.svg "In January")\n');
    expect(html).toMatch(/^<p>Here: <img /);
    expect(html).toContain('"title":"In January"');
  });
});

test('a picture without a title is no figure', async () => {
  expect(await htmlOf('![The bench](bench.png)\n')).toMatch(/^<p><img /);
});

test('a photograph says how wide it is shown, so that a phone fetches a small file; a drawing has one file', async () => {
  expect(await htmlOf('![The bench](bench.png)\n')).toContain(
    '"sizes":"(min-width: 1100px) 1053px, calc(100vw - 40px)"',
  );
  expect(await htmlOf('![The bench](bench.svg)\n')).not.toContain('"sizes"');
});
