import type { Row } from './assemble.ts';
import { along, below } from './axis.ts';
import type { SpectrumMark } from './harmonic-marks.ts';
import type { Panel } from './layers.ts';
import { textWidth } from './text-width.ts';
import { colour, fontSize } from './theme.ts';

/** A box around a place, in pixels from the top left of the plot. */
interface Box {
  px: number;
  py: number;
  halfWidth: number;
  halfHeight: number;
}

const symbolHalf = 4.5;
const labelHalf = fontSize / 2 - 0.5;
/** From the middle of a symbol to the middle of its label. */
const distance = 13;

/**
 * Labels of the marks of a spectrum. None covers another; those of lines above the noise come first, and both groups
 * keep their order. A line above the noise is named above its symbol, or right or left of it, or up to three rows
 * higher where others stand, or below; one that could as well be noise only beside its symbol, above, below, right or
 * left, where it hides none. A label without room is omitted.
 */
export function markLabels(marks: readonly SpectrumMark[], panel: Panel): Row[] {
  const symbols = marks.map((mark) => symbolBox(mark, panel));
  const placed: Box[] = [];
  const rows: Row[] = [];
  for (const mark of marks.toSorted((a, b) => Number(b.detected) - Number(a.detected))) {
    const places = placesOf(mark, panel).filter((place) => isFree(place, placed));
    const open = places.find((place) => isFree(place, symbols)) ?? (mark.detected ? places[0] : undefined);
    if (open === undefined) continue;
    placed.push(open);
    rows.push({ px: open.px, py: open.py, text: [mark.label], fill: colour('ink') });
  }
  return rows;
}

function symbolBox({ frequencyHz, levelDb }: SpectrumMark, panel: Panel): Box {
  const place = { px: along(panel.x, frequencyHz), py: below(panel.y, levelDb) };
  return { ...place, halfWidth: symbolHalf, halfHeight: symbolHalf };
}

/** Where a label may stand, the best place first; all are inside the plot from left to right, and not below it. */
function placesOf(mark: SpectrumMark, panel: Panel): Box[] {
  const { px, py } = symbolBox(mark, panel);
  const halfWidth = textWidth(mark.label, fontSize) / 2 + 1;
  const last = panel.x.length - halfWidth;
  const middle = Math.max(halfWidth, Math.min(last, px));
  const aside = symbolHalf + halfWidth + 1;
  const over = (offset: number) => ({ px: middle, py: py + offset });
  const sides = [aside, -aside].map((offset) => ({ px: px + offset, py }));
  const higher = [1, 2, 3].map((row) => over(-distance - row * fontSize));
  const places = mark.detected
    ? [over(-distance), ...sides, ...higher, over(distance)]
    : [over(-distance), over(distance), ...sides];
  return places
    .filter((place) => place.px >= halfWidth && place.px <= last && place.py + labelHalf <= panel.y.length)
    .map((place) => ({ ...place, halfWidth, halfHeight: labelHalf }));
}

const isFree = (box: Box, others: readonly Box[]): boolean =>
  others.every(
    (other) =>
      Math.abs(other.px - box.px) >= other.halfWidth + box.halfWidth ||
      Math.abs(other.py - box.py) >= other.halfHeight + box.halfHeight,
  );
