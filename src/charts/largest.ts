import { drawable } from './axis.ts';
import type { Readings } from './types.ts';

/** A stretch of frequencies over which one harmonic is the largest. */
export interface Reign {
  order: number;
  fromHz: number;
  toHz: number;
}

/** Which order is the largest reading by reading, in order of frequency; readings without one are passed over. */
export function reigns(
  frequencyHz: Readings,
  orders: readonly { order: number; ratio: Readings }[],
): Reign[] {
  const found: Reign[] = [];
  for (const { hz, index } of byFrequency(frequencyHz)) {
    const order = largestAt(orders, index);
    const last = found.at(-1);
    if (order === null) continue;
    if (last?.order === order) last.toHz = hz;
    else found.push({ order, fromHz: hz, toHz: hz });
  }
  return found;
}

function byFrequency(frequencyHz: Readings): { hz: number; index: number }[] {
  return Array.from(frequencyHz, (hz, index) => ({ hz, index }))
    .filter((reading): reading is { hz: number; index: number } => drawable('log', reading.hz))
    .toSorted((a, b) => a.hz - b.hz);
}

function largestAt(orders: readonly { order: number; ratio: Readings }[], index: number): number | null {
  let best: { order: number; ratio: number } | null = null;
  for (const { order, ratio } of orders) {
    const value = ratio[index];
    if (drawable('log', value) && (best === null || value > best.ratio)) best = { order, ratio: value };
  }
  return best?.order ?? null;
}
