import type { Row } from './assemble.ts';
import { type Axis, along, within } from './axis.ts';
import { type Frame, rowHeight } from './frame.ts';
import type { Panel } from './layers.ts';
import { labelLines } from './load-mark-labels.ts';
import { textWidth } from './text-width.ts';
import { colour, fontSize } from './theme.ts';

/** A load resistance with its name; the chosen one stands out. */
export interface LoadMark {
  label: string;
  loadOhm: number;
  chosen: boolean;
}

/** Marks that look like one, with one label between them. */
interface Group {
  names: string[];
  chosen: boolean;
  /** Where their rules stand, in ascending order. */
  rules: [number, ...number[]];
}

type Side = 'left' | 'right';

/** A label beside its rules. */
interface Spot extends Group {
  /** From the topmost down. */
  lines: string[];
  left: number;
  right: number;
  side: Side;
}

interface Placed extends Spot {
  /** The lowest row that the label takes, counted upwards from the plot. */
  row: number;
}

export interface PlacedMarks {
  placed: Placed[];
  rows: number;
}

/**
 * Gives each mark inside the axis a label above the plot, marks that look like one a common one. Labels of the lower
 * loads stand to the left of their rules, those of the higher ones to the right, parted where that takes the fewest
 * rows; each takes the lowest rows in which it has room.
 */
export function placeLoadMarks(marks: readonly LoadMark[], x: Axis): PlacedMarks {
  const groups = grouped(
    marks.filter(({ loadOhm }) => within(x, loadOhm)),
    x,
  );
  const ways = Array.from({ length: groups.length + 1 }, (_, parted) => placedWith(groups, parted, x));
  const [best] = ways.toSorted((a, b) => a.clashes - b.clashes || costOf(a) - costOf(b));
  return { placed: best?.placed ?? [], rows: best?.rows ?? 0 };
}

/** Rows, and lines that broken names take above their own. */
const costOf = ({ placed, rows }: PlacedMarks): number =>
  placed.reduce((sum, { lines, names }) => sum + Math.max(0, lines.length - names.length), rows);

/** Rules this near each other look like one. */
const oneRule = 4;

function grouped(marks: readonly LoadMark[], x: Axis): Group[] {
  const groups: Group[] = [];
  for (const { label, loadOhm, chosen } of marks.toSorted((a, b) => a.loadOhm - b.loadOhm)) {
    const px = along(x, loadOhm);
    const near = groups.find((one) => one.chosen === chosen && px - one.rules[0] < oneRule);
    if (near) {
      near.names.push(label);
      near.rules.push(px);
    } else groups.push({ names: [label], chosen, rules: [px] });
  }
  return groups;
}

/** The first `parted` groups with their labels to the left, from the outermost inwards; then the others to the right. */
function placedWith(groups: readonly Group[], parted: number, x: Axis): PlacedMarks & { clashes: number } {
  const placed: Placed[] = [];
  let clashes = 0;
  const place = (spot: Spot) => {
    const above = rowsOf(placed);
    const free = Array.from({ length: above + 1 }, (_, row) => row).find((row) =>
      placed.every((other) => !disturb({ ...spot, row }, other)),
    );
    if (free === undefined) clashes += 1;
    placed.push({ ...spot, row: free ?? above });
  };
  for (const group of groups.slice(0, parted)) place(spotOf(group, 'left', x));
  for (const group of groups.slice(parted).toReversed()) place(spotOf(group, 'right', x));
  return { placed, clashes, rows: rowsOf(placed) };
}

const rowsOf = (placed: readonly Placed[]) =>
  placed.reduce((most, { row, lines }) => Math.max(most, row + lines.length), 0);

/** Room that a label may take to the left of the plot. */
const besidePlot = 30;
/** Around the text of a label. */
const padding = 8;

/** A label that would leave the plot moves back over its own rule. */
function spotOf(group: Group, side: Side, x: Axis): Spot {
  const px = side === 'left' ? group.rules[0] : (group.rules.at(-1) ?? group.rules[0]);
  const room = side === 'left' ? px + besidePlot : x.length - px;
  const lines = labelLines(group.names, { room: room - padding, most: x.length - padding });
  const width = Math.max(...lines.map((line) => textWidth(line, fontSize))) + padding;
  const left = side === 'left' ? Math.max(-besidePlot, px - width) : Math.min(px, x.length - width);
  return { ...group, lines, side, left, right: left + width };
}

/** A label must not cover another, nor the rule of a mark whose label stands higher, unless both share it. */
function disturb(one: Placed, other: Placed): boolean {
  const rows = (spot: Placed) => ({ low: spot.row, high: spot.row + spot.lines.length - 1 });
  const [here, there] = [rows(one), rows(other)];
  const meet = here.low <= there.high && there.low <= here.high;
  const covers = meet && one.left < other.right + 6 && one.right > other.left - 6;
  const crossed = there.high > here.low && isCrossed(one, other);
  const crosses = here.high > there.low && isCrossed(other, one);
  return covers || crossed || crosses;
}

/** Whether a rule of `by` runs through a label. */
const isCrossed = ({ left, right, rules: own }: Placed, { rules }: Placed): boolean =>
  rules.some((px) => px > left - 3 && px < right + 3 && own.every((mine) => Math.abs(mine - px) >= oneRule));

/** Rules through each panel, in the uppermost up to their labels. */
export function loadRules(placed: readonly Placed[], panels: readonly Pick<Panel, 'y' | 'top'>[]): Row[] {
  return placed.flatMap((mark) =>
    mark.rules.flatMap((px) =>
      panels.map(({ y, top }, i) => ({
        px,
        py: i === 0 ? topOf(mark) : top,
        px2: px,
        py2: top + y.length,
        stroke: colour(mark.chosen ? 'ink' : 'soft'),
        dash: mark.chosen ? [] : [1, 3],
      })),
    ),
  );
}

/** Up beside the uppermost line, or to below the label where it had to move over its own rule. */
function topOf({ row, lines, rules, left, right }: Placed): number {
  const isBeside = rules.every((px) => left >= px || right <= px);
  return isBeside ? labelY(row + lines.length - 1) - fontSize / 2 : labelY(row) + fontSize / 2 + 2;
}

/** The lines of the labels, by the side of their rules on which they stand. */
export function loadLabels(placed: readonly Placed[], { width }: Pick<Frame, 'width'>): Record<Side, Row[]> {
  const of = (side: Side) => placed.filter((mark) => mark.side === side);
  const rows = ({ lines, row, chosen }: Placed, px: number): Row[] =>
    lines.toReversed().map((line, k) => ({
      px,
      py: labelY(row + k),
      text: [line],
      fill: colour(chosen ? 'ink' : 'soft'),
    }));
  return {
    right: of('right').flatMap((mark) => rows(mark, Math.min(mark.left + 5, width))),
    left: of('left').flatMap((mark) => rows(mark, mark.right - 5)),
  };
}

function labelY(row: number): number {
  return -10 - row * rowHeight;
}
