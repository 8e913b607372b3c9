/** Points of a curve with ascending, positive axis values. */
export interface Curve {
  axis: Float64Array;
  values: Float64Array;
  /**
   * How a value runs between two points, over the logarithm of the axis: `straight` in the value itself, `power` in
   * its logarithm where both ends are above zero (straight otherwise).
   */
  between: 'straight' | 'power';
}

/** The curve's value at a place on its axis; null outside it. Nothing is extrapolated. */
export function valueAt({ axis, values, between }: Curve, at: number): number | null {
  const next = axis.findIndex((place) => place >= at);
  const after = axis[next];
  if (next === -1 || after === undefined || !(at > 0)) return null;
  if (after === at) return values[next] ?? null;
  if (next === 0) return null;
  const before = axis[next - 1] ?? after;
  const share = (Math.log(at) - Math.log(before)) / (Math.log(after) - Math.log(before));
  return blend(values[next - 1] ?? 0, values[next] ?? 0, share, between);
}

function blend(from: number, to: number, share: number, between: Curve['between']): number {
  return between === 'power' && from > 0 && to > 0
    ? powerBlend(from, to, share)
    : straightBlend(from, to, share);
}

const straightBlend = (from: number, to: number, share: number) => (1 - share) * from + share * to;

/** The value a share of the way from one to another on a logarithmic axis; both are above zero. */
export function powerBlend(from: number, to: number, share: number): number {
  return Math.exp(straightBlend(Math.log(from), Math.log(to), share));
}

/** Where, between two places, a straight run over the logarithm of the axis takes a level between its ends. */
export function placeOf(
  level: number,
  from: { axis: number; value: number },
  to: { axis: number; value: number },
): number {
  const share = (level - from.value) / (to.value - from.value);
  return powerBlend(from.axis, to.axis, share);
}

/** An extreme of a curve, with its place on the axis. */
export interface Extreme {
  value: number;
  at: number;
}

/** The point for which `score` is largest, the first of several; null for a curve without points. */
export function extremeOf(
  { axis, values }: Pick<Curve, 'axis' | 'values'>,
  score: (value: number) => number,
): Extreme | null {
  let best: Extreme | null = null;
  for (let i = 0; i < axis.length; i++) {
    const [value = 0, at = 0] = [values[i], axis[i]];
    if (best === null || score(value) > score(best.value)) best = { value, at };
  }
  return best;
}
