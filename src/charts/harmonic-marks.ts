import type { Row } from './assemble.ts';
import { drawable } from './axis.ts';
import { textWidth } from './text-width.ts';
import { colour, fontSize } from './theme.ts';
import type { HarmonicSpectrumData } from './types.ts';

/** What is said of a harmonic that could as well be noise. */
export const unclearState = 'not told from noise';

/** The mark of a named line in a spectrum. */
export interface SpectrumMark {
  label: string;
  frequencyHz: number;
  levelDb: number;
  detected: boolean;
  symbol: { shape: string; fill: string; stroke: string };
}

/** The mark of the fundamental or of one harmonic, labelled with its order. */
export interface HarmonicMark extends SpectrumMark {
  order: number;
}

const symbols = {
  clear: { shape: 'circle', fill: colour('ink'), stroke: colour('ink') },
  unclear: { shape: 'diamond', fill: colour('paper'), stroke: colour('ink') },
};

/** A disc for what stands above the noise, an open diamond for what could as well be noise. */
export const markSymbol = (detected: boolean) => (detected ? symbols.clear : symbols.unclear);

/** Marks for the fundamental and every harmonic that has an amplitude, by order. */
export function harmonicMarks(
  fundamentalHz: number,
  harmonics: HarmonicSpectrumData['harmonics'],
): HarmonicMark[] {
  const first = {
    ...{ order: 1, label: '1', frequencyHz: fundamentalHz, levelDb: 0 },
    ...{ detected: true, symbol: markSymbol(true) },
  };
  const others = harmonics
    .filter(({ ratio, frequencyHz }) => drawable('log', ratio) && drawable('log', frequencyHz))
    .map(({ order, frequencyHz, ratio, detected }) => ({
      order,
      label: `${order}`,
      frequencyHz,
      levelDb: 20 * Math.log10(ratio),
      detected,
      symbol: markSymbol(detected),
    }));
  return [first, ...others].toSorted((a, b) => a.order - b.order);
}

/** Rows of symbols and texts whose `px` counts from the left end of the key. */
export interface MarkKey {
  width: number;
  symbols: (Row & { px: number })[];
  labels: (Row & { px: number })[];
}

/** The key to the two shapes, from 0 to `width`; empty when only one of them occurs. */
export function markKey(marks: readonly Pick<SpectrumMark, 'detected'>[]): MarkKey {
  if (marks.every(({ detected }) => detected)) return { width: 0, symbols: [], labels: [] };
  const entries = [
    { symbol: symbols.clear, text: 'above the noise', px: 5 },
    { symbol: symbols.unclear, text: unclearState, px: 5 + textWidth('above the noise', fontSize) + 28 },
  ];
  const end = (entries.at(-1)?.px ?? 0) + 10 + textWidth(unclearState, fontSize);
  return {
    width: end,
    symbols: entries.map(({ symbol, px }) => ({ px, py: -16, ...symbol })),
    labels: entries.map(({ text, px }) => ({ px: px + 10, py: -16, text: [text], fill: colour('soft') })),
  };
}
