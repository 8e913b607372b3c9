import type { Row } from './assemble.ts';
import { along, below, within } from './axis.ts';
import { crossings } from './crossings.ts';
import type { DrawnLine } from './curves.ts';
import type { Panel } from './layers.ts';
import { joined } from './readings.ts';
import { textWidth } from './text-width.ts';
import { colour, fontSize } from './theme.ts';

interface Spot {
  text: string;
  /** Pixels along the upper edge, or down the right one. */
  at: number;
}

/**
 * Grid voltages where the curves of a family leave the plot, over its upper edge or beside their right ends.
 * Where there is no room for all, curves between keep theirs in the order of the family and the rest go without.
 */
export function gridLabels(
  curves: readonly (DrawnLine & { gridV: number })[],
  panel: Panel,
  print: (gridV: number) => string,
): { name: Row[]; top: Row[]; side: Row[] } {
  const top: Spot[] = [];
  const side: (Spot & { px: number })[] = [];
  for (const curve of curves.toSorted((a, b) => b.gridV - a.gridV)) {
    const text = print(curve.gridV);
    const exit = exitOf(curve, panel);
    if (exit === null) continue;
    if (exit.over) top.push({ text, at: exit.px });
    else side.push({ text, at: exit.py, px: exit.px });
  }
  return {
    name: nameOf(top[0], side[0]),
    top: spaced(top, ({ text }) => textWidth(text, fontSize) + 6).map(({ text, at }) => row(text, at, -11)),
    side: spaced(side, () => fontSize + 1).map(({ text, at, px }) => row(text, px + 7, at)),
  };
}

/** Says once what the numbers are: before the first one over the plot, or above the first one beside it. */
function nameOf(top: Spot | undefined, side: (Spot & { px: number }) | undefined): Row[] {
  const name = 'grid';
  if (top !== undefined) return [row(name, top.at - textWidth(top.text, fontSize) / 2 - 6, -11)];
  if (side === undefined) return [];
  return [row(name, side.px + 7 + textWidth(name, fontSize), side.at - fontSize - 1)];
}

function row(text: string, px: number, py: number): Row {
  return { px, py, text: [text], fill: colour('soft') };
}

function exitOf({ runs }: DrawnLine, { x, y }: Panel): { px: number; py: number; over: boolean } | null {
  const run = joined(runs);
  const rise = crossings(run, y.domain[1], { logX: false, logY: false }).find(({ rising }) => rising);
  if (rise !== undefined && within(x, rise.x)) return { px: along(x, rise.x), py: 0, over: true };
  const last = run.x.findLastIndex((value, i) => within(x, value) && within(y, run.y[i] ?? Number.NaN));
  if (last < 0) return null;
  return { px: along(x, run.x[last] ?? 0), py: below(y, run.y[last] ?? 0), over: false };
}

/** Keeps what stands clear of the one kept before. */
function spaced<T extends Spot>(spots: readonly T[], room: (spot: T) => number): T[] {
  const kept: T[] = [];
  for (const spot of spots) {
    const last = kept.at(-1);
    if (last === undefined || Math.abs(spot.at - last.at) >= (room(spot) + room(last)) / 2) kept.push(spot);
  }
  return kept;
}
