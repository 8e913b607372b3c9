const mostSteps = 200;
const ofTheBracket = 1e-15;

/** Where a root is looked for: the function has opposite signs at the two ends. */
export interface Bracket {
  low: number;
  high: number;
}

interface Point {
  x: number;
  y: number;
}

/**
 * Root of a continuous function inside a bracket, to `relative` of the root or 1e-15 of the bracket's width,
 * whichever is larger. Inverse quadratic interpolation where it converges and bisection elsewhere, so that it
 * always ends. Null where the ends have the same sign or the function gives no number.
 * @source T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149
 */
export function findRoot(f: (x: number) => number, { low, high }: Bracket, relative = 1e-12): number | null {
  const at = (x: number): Point => ({ x, y: f(x) });
  const ends = [at(low), at(high)] as const;
  const zero = ends.find(({ y }) => y === 0);
  if (zero) return zero.x;
  return Math.sign(ends[0].y) * Math.sign(ends[1].y) < 0
    ? narrow(at, ends, { relative, absolute: ofTheBracket * Math.abs(high - low) })
    : null;
}

function narrow(
  at: (x: number) => Point,
  [start, end]: readonly [Point, Point],
  { relative, absolute }: { relative: number; absolute: number },
): number | null {
  let newest = start;
  let opposite = end;
  let fraction = 0.5;
  for (let step = 0; step < mostSteps; step++) {
    const next = at(newest.x + fraction * (opposite.x - newest.x));
    if (Number.isNaN(next.y)) return null;
    const sameSide = Math.sign(next.y) === Math.sign(newest.y);
    const older = sameSide ? newest : opposite;
    if (!sameSide) opposite = newest;
    newest = next;
    const best = Math.abs(newest.y) < Math.abs(opposite.y) ? newest : opposite;
    const least = (relative * Math.abs(best.x) + absolute) / Math.abs(opposite.x - newest.x);
    if (best.y === 0 || !(least <= 0.5)) return best.x;
    fraction = Math.min(1 - least, Math.max(least, nextFraction(newest, opposite, older)));
  }
  return newest.x;
}

/** Share of the bracket, from `a` towards `b`, for the next trial; `c` is the point before. */
function nextFraction(a: Point, b: Point, c: Point): number {
  const xi = (a.x - b.x) / (c.x - b.x);
  const phi = (a.y - b.y) / (c.y - b.y);
  if (!(1 - Math.sqrt(1 - xi) < phi && phi < Math.sqrt(xi))) return 0.5;
  const reach = (c.x - a.x) / (b.x - a.x);
  return (a.y / (a.y - b.y)) * (c.y / (c.y - b.y)) - reach * (a.y / (c.y - a.y)) * (b.y / (b.y - c.y));
}

/** Doubles `start` until the function is negative there; null where it never is. */
export function firstNegative(f: (x: number) => number, start: number): number | null {
  for (let x = start, step = 0; step < mostSteps; x *= 2, step++) {
    if (f(x) < 0) return x;
  }
  return null;
}
