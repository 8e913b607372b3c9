/** One criterion as it is weighed. */
export interface Weighed {
  title: string;
  /** The maker’s weight, not below zero. */
  weight: number;
  /** Points of each alternative, from 0 to 1. */
  points: readonly number[];
}

/** To what one weight must change, the others as they are, for another alternative to come out first. */
export interface WeightMove {
  title: string;
  weight: number;
  /** Null where no weight of this criterion changes the ranking. */
  changesAt: number | null;
  /** Index of the alternative that then draws level with the first. */
  rival: number | null;
}

/** Alternatives by weighed points. */
export interface Weighing {
  /** Share of all weight that each alternative has, from 0 to 1. */
  totals: number[];
  /** Indices of the alternatives, the one with most points first. */
  order: number[];
  /** True where the first two are level. */
  isTied: boolean;
  moves: WeightMove[];
}

/**
 * Points by one criterion: of the other alternatives, the share that each one beats; one that is equal, or cannot be told
 * apart, counts one half. `beats(a, b)` is 1, 0 or −1.
 */
export function pointsOf(count: number, beats: (one: number, other: number) => number): number[] {
  const all = [...Array(count).keys()];
  return all.map((one) => {
    const others = all.filter((other) => other !== one);
    return others.reduce((sum, other) => sum + (1 + beats(one, other)) / 2, 0) / others.length;
  });
}

/**
 * The weighed sum of points, and for each criterion how far its weight must move until another alternative draws level
 * with the first. The lead is linear in each weight, so that the place is exact. Null without any weight.
 * @source weighted sum and its linear sensitivity, derived.
 */
export function weigh(criteria: readonly Weighed[]): Weighing | null {
  const whole = criteria.reduce((sum, { weight }) => sum + weight, 0);
  const count = criteria[0]?.points.length ?? 0;
  if (!(whole > 0)) return null;
  const sums = [...Array(count).keys()].map((i) =>
    criteria.reduce((sum, { weight, points }) => sum + weight * (points[i] ?? 0), 0),
  );
  const order = [...sums.keys()].sort((a, b) => (sums[b] ?? 0) - (sums[a] ?? 0) || a - b);
  const [first = 0, second = 0] = order;
  const isTied = Math.abs((sums[first] ?? 0) - (sums[second] ?? 0)) < 1e-9 * whole;
  const rivals = order.slice(1).map((rival) => ({ rival, lead: (sums[first] ?? 0) - (sums[rival] ?? 0) }));
  const moves = criteria.map((criterion) => moveOf(criterion, first, rivals));
  return { totals: sums.map((sum) => sum / whole), order, isTied, moves };
}

function moveOf(
  { title, weight, points }: Weighed,
  first: number,
  rivals: readonly { rival: number; lead: number }[],
): WeightMove {
  const reached = rivals.flatMap(({ rival, lead }) => {
    const gain = (points[first] ?? 0) - (points[rival] ?? 0);
    const changesAt = weight - lead / gain;
    return gain !== 0 && changesAt >= 0 ? [{ rival, changesAt }] : [];
  });
  const [nearest] = reached.sort((a, b) => Math.abs(a.changesAt - weight) - Math.abs(b.changesAt - weight));
  return { title, weight, changesAt: nearest?.changesAt ?? null, rival: nearest?.rival ?? null };
}
