/** A curve through points; the axis ascends. */
export interface SmoothCurve {
  axis: readonly number[];
  values: readonly number[];
}

/**
 * The value of a smooth curve through all points: cubics between neighbours, whose slope at a point is that of the
 * parabola through it and its two neighbours. Null outside the axis, and for fewer than two points.
 *
 * @source piecewise cubic Hermite interpolation with three-point slopes: C. de Boor, A Practical Guide to Splines,
 * ch. IV, "Bessel interpolation", from memory.
 */
export function smoothAt(curve: SmoothCurve, at: number): number | null {
  const { axis } = curve;
  const [first = Number.NaN, last = Number.NaN] = [axis[0], axis.at(-1)];
  if (axis.length < 2 || !(at >= first && at <= last)) return null;
  const next = Math.max(
    1,
    axis.findIndex((place) => place >= at),
  );
  return cubic(curve, next - 1, at);
}

function cubic({ axis, values }: SmoothCurve, i: number, at: number): number {
  const [from = 0, to = 0] = [values[i], values[i + 1]];
  const width = stepAt(axis, i);
  const t = (at - (axis[i] ?? 0)) / width;
  const [leaving, arriving] = [slopeAt(axis, values, i), slopeAt(axis, values, i + 1)];
  return (
    from * (1 + 2 * t) * (1 - t) ** 2 +
    width * leaving * t * (1 - t) ** 2 +
    to * t * t * (3 - 2 * t) +
    width * arriving * t * t * (t - 1)
  );
}

/** Slope at a point; that of the only neighbouring chord at either end. */
function slopeAt(axis: readonly number[], values: readonly number[], i: number): number {
  const chord = (j: number) => stepAt(values, j) / stepAt(axis, j);
  if (i === 0) return chord(0);
  if (i === axis.length - 1) return chord(i - 1);
  const [before, after] = [stepAt(axis, i - 1), stepAt(axis, i)];
  return (chord(i - 1) * after + chord(i) * before) / (before + after);
}

const stepAt = (values: readonly number[], i: number) => (values[i + 1] ?? 0) - (values[i] ?? 0);
