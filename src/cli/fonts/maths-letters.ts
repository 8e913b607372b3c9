/** Letters outside the block of mathematical letters that stand for one of it. */
const italicElsewhere: Readonly<Record<string, number>> = { h: 0x210e, ı: 0x1d6a4, ȷ: 0x1d6a5 };

/** Runs of letters with the place of their italic forms. */
const italicRuns: readonly (readonly [first: number, last: number, italic: number])[] = [
  [0x41, 0x5a, 0x1d434],
  [0x61, 0x7a, 0x1d44e],
  [0x391, 0x3a9, 0x1d6e2],
  [0x3b1, 0x3c9, 0x1d6fc],
];

/** Greek signs and their italic forms, which stand apart from the alphabet. */
const italicSigns = [...'ϴ∇∂ϵϑϰϕϱϖ'];
const italicSignPlaces = [0x1d6f3, 0x1d6fb, 0x1d715, 0x1d716, 0x1d717, 0x1d718, 0x1d719, 0x1d71a, 0x1d71b];

/**
 * The italic letter that a browser draws in the place of a letter, or the letter itself.
 * @source MathML Core, appendix "Italic mappings"; The Unicode Standard, block Mathematical Alphanumeric Symbols
 */
export function italicOf(point: number): number {
  const letter = String.fromCodePoint(point);
  const place = italicSignPlaces[italicSigns.indexOf(letter)] ?? italicElsewhere[letter];
  if (place !== undefined) return place;
  const run = italicRuns.find(([first, last]) => first <= point && point <= last);
  return run === undefined ? point : run[2] + point - run[0];
}

/** Alphabets of the block: where they begin, how many letters each has, and what they are of. */
const alphabets = [
  { first: 0x1d400, size: 52, count: 13, place: (point: number) => latinPlace(point) },
  { first: 0x1d6a8, size: 58, count: 5, place: (point: number) => greekPlace(point) },
  { first: 0x1d7ce, size: 10, count: 5, place: (point: number) => digitPlace(point) },
];

/** Letters such as the set of real numbers, which were in Unicode before the block and are missing in it. */
const lettersElsewhere = [...'ℂℊℋℌℍℎℐℑℒℕℙℚℛℜℝℤℨℬℭℯℰℱℳℴ'].map((letter) => letter.codePointAt(0) ?? 0);

/**
 * Every form of a letter or digit, bold, script, double-struck and so on, that a `mathvariant` may ask for.
 * @source The Unicode Standard, block Mathematical Alphanumeric Symbols (U+1D400 to U+1D7FF)
 */
export function variantsOf(point: number): number[] {
  const forms = alphabets.flatMap(({ first, size, count, place }) => {
    const at = place(point);
    return at === null ? [] : Array.from({ length: count }, (_, style) => first + style * size + at);
  });
  return forms.length === 0 ? [] : [...forms, ...lettersElsewhere];
}

function latinPlace(point: number): number | null {
  if (point >= 0x41 && point <= 0x5a) return point - 0x41;
  return point >= 0x61 && point <= 0x7a ? point - 0x61 + 26 : null;
}

function greekPlace(point: number): number | null {
  if (point >= 0x391 && point <= 0x3a9) return point - 0x391;
  return point >= 0x3b1 && point <= 0x3c9 ? point - 0x3b1 + 26 : null;
}

const digitPlace = (point: number) => (point >= 0x30 && point <= 0x39 ? point - 0x30 : null);
