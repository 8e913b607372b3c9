import { drawable } from './axis.ts';
import type { Readings } from './types.ts';

/** A stretch of the axis over which one harmonic is the largest. */
export interface Reign {
  order: number;
  from: number;
  to: number;
}

/** Which order is the largest reading by reading along the axis; readings without one are passed over. */
export function reigns(places: Readings, orders: readonly { order: number; ratio: Readings }[]): Reign[] {
  const found: Reign[] = [];
  for (const { place, index } of alongAxis(places)) {
    const order = largestAt(orders, index);
    const last = found.at(-1);
    if (order === null) continue;
    if (last?.order === order) last.to = place;
    else found.push({ order, from: place, to: place });
  }
  return found;
}

function alongAxis(places: Readings): { place: number; index: number }[] {
  return Array.from(places, (place, index) => ({ place, index }))
    .filter((reading): reading is { place: number; index: number } => drawable('log', reading.place))
    .toSorted((a, b) => a.place - b.place);
}

function largestAt(orders: readonly { order: number; ratio: Readings }[], index: number): number | null {
  let best: { order: number; ratio: number } | null = null;
  for (const { order, ratio } of orders) {
    const value = ratio[index];
    if (drawable('log', value) && (best === null || value > best.ratio)) best = { order, ratio: value };
  }
  return best?.order ?? null;
}
