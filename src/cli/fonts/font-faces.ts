/** One `@font-face` rule of a built style sheet. */
export interface FontFace {
  /** The whole rule as it stands in the sheet. */
  rule: string;
  family: string;
  style: string;
  /** Lightest and heaviest weight that the rule is for. */
  weights: readonly [number, number];
  /** Name of its file, which lies beside the sheet. */
  file: string;
  /** Code points that it is used for, first and last of each run. */
  ranges: readonly (readonly [number, number])[];
}

/** Family of the font that sets formulas. */
export const mathsFamily = 'Noto Sans Math';

const everything = [[0, 0x10ffff]] as const;

/** The font faces of a built style sheet whose file is a WOFF2 font, in their order. */
export function fontFaces(sheet: string): FontFace[] {
  return (sheet.match(/@font-face\s*\{[^}]*\}/g) ?? []).flatMap((rule) => {
    const file = /url\(["']?[^)"']*?([\w.-]+\.woff2)["']?\)/.exec(rule)?.[1];
    if (file === undefined) return [];
    const range = descriptor(rule, 'unicode-range');
    return [
      {
        rule,
        file,
        family: (descriptor(rule, 'font-family') ?? '').replaceAll(/["']/g, ''),
        style: descriptor(rule, 'font-style') ?? 'normal',
        weights: weightsOf(descriptor(rule, 'font-weight') ?? '400'),
        ranges: range === null ? everything : range.split(',').map(runOf),
      },
    ];
  });
}

/** Whether a face is used for a code point. */
export const isFor = ({ ranges }: FontFace, point: number) =>
  ranges.some(([first, last]) => first <= point && point <= last);

function descriptor(rule: string, property: string): string | null {
  return new RegExp(`[{;\\s]${property}:\\s*([^;}]+)`).exec(rule)?.[1]?.trim() ?? null;
}

function weightsOf(value: string): [number, number] {
  const [first = 400, last = first] = value.split(/\s+/).map((word) => namedWeights[word] ?? Number(word));
  return [first, last];
}

const namedWeights: Readonly<Record<string, number>> = { normal: 400, bold: 700 };

/**
 * One run of a `unicode-range`: a code point, a run, or a code point with wildcards.
 * @source CSS Fonts Module Level 4, section 4.5, and CSS Syntax Module Level 3, section 7
 */
function runOf(written: string): [number, number] {
  const [first = '', last] = written.trim().replace(/^u\+/i, '').split('-');
  const point = (text: string) => Number.parseInt(text, 16);
  return [point(first.replaceAll('?', '0')), point(last ?? first.replaceAll('?', 'f'))];
}
