import { textWidth, wrapText } from './text-width.ts';
import { fontSize } from './theme.ts';

export const lineHeight = 15;

/** A label that belongs to the end of a line; `x` and `y` are pixels from the top left of the plot. */
export interface Anchor {
  text: string;
  x: number;
  y: number;
  colour: string;
}

/** A label with its place: the middle of its lines stands at `labelY`. */
export interface PlacedLabel extends Anchor {
  lines: string[];
  labelY: number;
}

/** Breaks labels into lines and says how wide they are together. */
export function wrapLabels(texts: readonly string[], most: number): { lines: string[][]; width: number } {
  const lines = texts.map((text) => wrapText(text, fontSize, most));
  const width = Math.max(0, ...lines.flat().map((line) => textWidth(line, fontSize)));
  return { lines, width: Math.ceil(width) };
}

/**
 * Places labels in a column so that none covers another: each as near to its line's end as its neighbours
 * allow, in the order of the ends, inside 0 to `height` as far as they fit.
 */
export function placeLabels(anchors: readonly Anchor[], most: number, height: number): PlacedLabel[] {
  const { lines } = wrapLabels(
    anchors.map(({ text }) => text),
    most,
  );
  const placed = anchors
    .map((anchor, i) => ({ ...anchor, lines: lines[i] ?? [anchor.text], labelY: anchor.y }))
    .toSorted((a, b) => a.y - b.y);
  pushDown(placed);
  pullUp(placed, height);
  return placed;
}

function tall({ lines }: PlacedLabel): number {
  return lines.length * lineHeight;
}

function pushDown(placed: PlacedLabel[]): void {
  let free = Number.NEGATIVE_INFINITY;
  for (const label of placed) {
    label.labelY = Math.max(label.labelY, free + tall(label) / 2, tall(label) / 2 - lineHeight / 2);
    free = label.labelY + tall(label) / 2;
  }
}

function pullUp(placed: PlacedLabel[], height: number): void {
  let free = height + lineHeight / 2;
  for (const label of placed.toReversed()) {
    label.labelY = Math.min(label.labelY, free - tall(label) / 2);
    free = label.labelY - tall(label) / 2;
  }
}
