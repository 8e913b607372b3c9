import type { Row } from './assemble.ts';
import { type Axis, along, within } from './axis.ts';
import { type Frame, rowHeight } from './frame.ts';
import type { Panel } from './layers.ts';
import { textWidth, wrapText } from './text-width.ts';
import { colour, fontSize } from './theme.ts';

/** A load resistance with its name; the chosen one stands out. */
export interface LoadMark {
  label: string;
  loadOhm: number;
  chosen: boolean;
}

interface Placed extends LoadMark {
  px: number;
  left: number;
  right: number;
  row: number;
  flipped: boolean;
}

/** Gives each mark inside the axis the lowest row above the plot in which its label has room. */
export function placeLoadMarks(marks: readonly LoadMark[], x: Axis): { placed: Placed[]; rows: number } {
  const placed: Placed[] = [];
  for (const mark of marks
    .filter(({ loadOhm }) => within(x, loadOhm))
    .toSorted((a, b) => b.loadOhm - a.loadOhm)) {
    const spot = spotOf(mark, x);
    const row = [...marks.keys()].find((tried) => isFree(spot, tried, placed)) ?? rowsOf(placed);
    placed.push({ ...spot, row });
  }
  return { placed, rows: rowsOf(placed) };
}

const rowsOf = (placed: readonly Placed[]) => placed.reduce((most, { row }) => Math.max(most, row + 1), 0);

/** Labels stand to the right of their rule, or to its left where they would leave the plot. */
function spotOf(mark: LoadMark, x: Axis): Omit<Placed, 'row'> {
  const px = along(x, mark.loadOhm);
  const [label = ''] = wrapText(mark.label.replaceAll(' ', '\u00a0'), fontSize, x.length - 12);
  const width = textWidth(label, fontSize) + 8;
  const flipped = px + width > x.length && px - width >= -30;
  const shift = flipped ? -width : Math.min(0, x.length - px - width);
  return { ...mark, label, px, left: px + shift, right: px + shift + width, flipped };
}

/** Rules this near each other look like one, which both labels stand beside. */
const oneRule = 4;

/** A label must not cover another, nor the rule of a mark whose label stands in a higher row, unless that is its own. */
function isFree({ left, right, px }: Omit<Placed, 'row'>, tried: number, placed: readonly Placed[]): boolean {
  return placed.every((other) => {
    const shared = Math.abs(other.px - px) < oneRule;
    const covers = other.row === tried && left < other.right + 6 && right > other.left - 6;
    const crossed = !shared && other.row > tried && other.px > left - 3 && other.px < right + 3;
    const crosses = !shared && tried > other.row && px > other.left - 3 && px < other.right + 3;
    return !covers && !crossed && !crosses;
  });
}

/** Rules through each panel, in the uppermost up to their labels. */
export function loadRules(placed: readonly Placed[], panels: readonly Pick<Panel, 'y' | 'top'>[]): Row[] {
  return placed.flatMap((mark) =>
    panels.map(({ y, top }, i) => ({
      px: mark.px,
      py: i === 0 ? labelY(mark.row) + (isBeside(mark) ? -fontSize / 2 : fontSize / 2 + 2) : top,
      px2: mark.px,
      py2: top + y.length,
      stroke: colour(mark.chosen ? 'ink' : 'soft'),
      dash: mark.chosen ? [] : [1, 3],
    })),
  );
}

/** False for a label that had to move over its own rule. */
function isBeside({ px, left, right }: Placed): boolean {
  return left >= px || right <= px;
}

/** Labels beside the rules, by the side they stand on. */
export function loadLabels(
  placed: readonly Placed[],
  { width }: Pick<Frame, 'width'>,
): { left: Row[]; right: Row[] } {
  const row = ({ label, row: line, chosen }: Placed, px: number): Row => ({
    px,
    py: labelY(line),
    text: [label],
    fill: colour(chosen ? 'ink' : 'soft'),
  });
  return {
    left: placed.filter(({ flipped }) => !flipped).map((mark) => row(mark, Math.min(mark.left + 5, width))),
    right: placed.filter(({ flipped }) => flipped).map((mark) => row(mark, mark.right - 5)),
  };
}

function labelY(row: number): number {
  return -10 - row * rowHeight;
}
