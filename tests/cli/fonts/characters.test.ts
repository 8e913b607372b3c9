import { describe, expect, test } from 'vitest';
import { mathsPoints } from '../../../src/cli/fonts/maths-characters.ts';
import { siteCharacters, textPoints } from '../../../src/cli/fonts/site-characters.ts';
import { writeFiles } from '../../support/journal.ts';

const lettersOf = (points: ReadonlySet<number>) => [...points].map((point) => String.fromCodePoint(point));
const formula = (inside: string) =>
  lettersOf(
    mathsPoints(`<p>Ω</p><math><semantics><mrow>${inside}</mrow>
    <annotation encoding="application/x-tex">\\xi</annotation></semantics></math>`),
  );

describe('characters of a file', () => {
  test('are found as they stand, as references, and as scripts and style sheets escape them', () => {
    const content = '4.7 kΩ &#x3c0; &#177; "\\u00b5" "\\xb7" "\\u{1d434}" content:"\\2192"';
    expect(lettersOf(textPoints(content)).sort()).toEqual([...'±µ·Ωπ→𝐴'].sort());
  });

  test('of several files come together, formulas apart, and what a keyboard writes is always there', async () => {
    const folder = writeFiles({
      'page.html': '<p>für</p><math><mi>ξ</mi></math>',
      'words.js': 'const unit = "Å"',
    });
    const { text, maths } = await siteCharacters([`${folder}/page.html`, `${folder}/words.js`]);
    expect(lettersOf(text)).toEqual(expect.arrayContaining([...'üÅazAZ09~−Ωµ°±·…']));
    expect(lettersOf(text)).not.toContain('ξ');
    expect(lettersOf(maths)).toEqual(['ξ', '𝜉']);
  });
});

describe('characters of formulas', () => {
  test('an identifier of one letter is drawn italic, as browsers do, and a name or an upright letter is not', () => {
    // MathML Core: a single-character mi is mapped to the mathematical italic letter unless mathvariant is normal.
    expect(formula('<mi>a</mi>')).toEqual(['a', '𝑎']);
    expect(formula('<mi>h</mi>')).toEqual(['h', 'ℎ']);
    expect(formula('<mi>Ω</mi><mi>ω</mi><mi>∂</mi>')).toEqual([...'Ω𝛺ω𝜔∂𝜕']);
    expect(formula('<mi>sin</mi>')).toEqual([...'sin']);
    expect(formula('<mi mathvariant="normal">V</mi>')).toEqual(['V']);
  });

  test('a hyphen is drawn as minus, and a root needs its sign, which no text holds', () => {
    expect(formula('<mo>-</mo>')).toEqual(['-', '−']);
    expect(formula('<msqrt><mn>2</mn></msqrt>')).toEqual(['√', '2']);
  });

  test('references are resolved, and the source of a formula does not count', () => {
    expect(formula('<mo>&#x3c;</mo><mo>&lt;</mo><mo>&amp;</mo>')).toEqual(['<', '&']);
  });

  test('a letter with a variant brings its forms in every alphabet', () => {
    // The Unicode Standard: bold B, script B, which is missing in the block, and double-struck B.
    expect(formula('<mi mathvariant="double-struck">B</mi>')).toEqual(
      expect.arrayContaining(['𝐁', 'ℬ', '𝔹']),
    );
    expect(formula('<mn mathvariant="bold">7</mn>')).toEqual(expect.arrayContaining(['𝟕', '𝟟']));
  });
});
