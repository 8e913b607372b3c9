/** How far from where a search was best it is looked for again, in octaves. */
const farthest = 1;

function mostSteps(loads: readonly number[]): number {
  const [first = 1, second = 2] = loads;
  return Math.ceil(farthest / Math.log2(second / first));
}

/** Something that is computed for the loads of a range, by their place; null where there is nothing. */
export type AlongLoads = (index: number) => number | null;

/**
 * The load of least cost near a place of the range, between its loads too: downhill to the place whose neighbours cost
 * more, then the lowest point of the parabola through the three. Null at an end of the range, or further off than an
 * octave.
 * @source vertex of the parabola through three evenly spaced points, on a logarithmic scale of loads
 */
export function leastNear(loads: readonly number[], cost: AlongLoads, start: number): number | null {
  let index = start;
  for (let step = mostSteps(loads); step > 0; step--) {
    const [left, here, right] = [cost(index - 1), cost(index), cost(index + 1)];
    if (left === null || here === null || right === null) return null;
    if (here <= left && here <= right) return between(loads, index, vertex(left, here, right));
    index += left < right ? -1 : 1;
  }
  return null;
}

/** Loads of a range that are tried before those around the best of them. */
const everyNth = 4;

/**
 * The place of least cost: of every fourth load and one that is promising, then downhill from the best of them; and how
 * many loads had a cost.
 */
export function leastAmong(
  loads: readonly number[],
  cost: AlongLoads,
  promising: number,
): { index: number; tried: number } {
  const tried = new Map<number, number>();
  const costAt = (index: number) => {
    const known = tried.get(index) ?? cost(index);
    if (known !== null) tried.set(index, known);
    return known ?? Number.POSITIVE_INFINITY;
  };
  const coarse = [...loads.keys()].filter((index) => index % everyNth === 0);
  let index = cheapest([promising, ...coarse], costAt);
  for (;;) {
    const next = cheapest([index, index - 1, index + 1], costAt);
    if (next === index) return { index, tried: tried.size };
    index = next;
  }
}

/** The first of the places that cost least. */
const cheapest = (places: readonly number[], costAt: (index: number) => number): number =>
  places.reduce((least, index) => (costAt(index) < costAt(least) ? index : least), places[0] ?? 0);

/** From the middle one, in steps; 0 where all three are the same. */
function vertex(left: number, here: number, right: number): number {
  const bend = left - 2 * here + right;
  return bend > 0 ? (left - right) / (2 * bend) : 0;
}

/** The load near a place at which a value passes through zero, interpolated; null where it does so in no place near. */
export function zeroNear(loads: readonly number[], value: AlongLoads, start: number): number | null {
  for (let step = 0; step < mostSteps(loads); step++) {
    for (const index of new Set([start + step, start - step])) {
      const [here, next] = [value(index), value(index + 1)];
      if (here !== null && next !== null && here * next <= 0) {
        return between(loads, index, here === next ? 0 : here / (here - next));
      }
    }
  }
  return null;
}

/** The load so many steps from a place. */
function between(loads: readonly number[], index: number, steps: number): number | null {
  const [here, next] = [loads[index], loads[index + 1]];
  return here === undefined || next === undefined ? null : here * (next / here) ** steps;
}
