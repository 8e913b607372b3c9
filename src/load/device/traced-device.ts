import type { Device, Electrodes, TracedFamily } from '../types.ts';
import { hermite, intervalOf, limitedSlope, monotoneCurve } from './monotone.ts';

/** A curve ready for evaluation: current by plate voltage, held at its ends. */
interface PreparedCurve {
  lastV: number;
  at(plateV: number): number;
}

/**
 * A device by traced plate curves: along plate voltage, and between the curves along grid voltage, it never
 * leaves the range of the neighbouring points. A current below zero counts as zero. Where a curve begins above 0 V it is led to no current at 0 V.
 * Outside the curves (beyond the line that joins their ends, above the highest and below the lowest grid
 * voltage) nothing is extrapolated: values are held and `margin` is negative. Below a curve
 * that is itself without current there is none. The screen voltage is that of the trace, whatever is asked.
 * @source F. N. Fritsch and R. E. Carlson, SIAM J. Numer. Anal. 17:238 (1980), in each direction
 */
export function tracedDevice({ curves }: TracedFamily): Device {
  const grids = curves.map(({ gridV }) => gridV);
  const plate = curves.map(({ plateV, plateA }) => prepared(plateV, plateA));
  const screens = curves.map(({ plateV, screenA }) => screenA && prepared(plateV, screenA));
  const known = screens.flatMap((curve) => curve ?? []);
  return {
    plateCurrent: (at) => between(grids, plate, at),
    screenCurrent: (at) => (known.length === grids.length ? between(grids, known, at) : 0),
    margin: (at) => marginIn(grids, plate, at),
  };
}

function prepared(plateV: readonly number[], current: readonly number[]): PreparedCurve {
  const origin = (plateV[0] ?? 0) > 0 ? [0] : [];
  const voltages = Float64Array.from([...origin, ...plateV]);
  const currents = Float64Array.from([...origin, ...current], (value) => Math.max(0, value));
  return { lastV: voltages.at(-1) ?? 0, at: monotoneCurve(voltages, currents) };
}

interface Point {
  gridV: number;
  plateA: number;
}

/** Along grid voltage at one plate voltage, from the four nearest curves. */
function between(
  grids: readonly number[],
  curves: readonly PreparedCurve[],
  { plateV, gridV }: Electrodes,
): number {
  const k = intervalOf(grids, gridV);
  const lower = curves[k];
  const upper = curves[k + 1];
  if (!lower || !upper) return 0;
  const left = { gridV: grids[k] ?? 0, plateA: lower.at(plateV) };
  const right = { gridV: grids[k + 1] ?? 0, plateA: upper.at(plateV) };
  if (lower.lastV < plateV && plateV < upper.lastV)
    toBorder(left, right, { shorter: lower, longer: upper, plateV });
  if (upper.lastV < plateV && plateV < lower.lastV)
    toBorder(right, left, { shorter: upper, longer: lower, plateV });
  const width = right.gridV - left.gridV;
  const t = (gridV - left.gridV) / width;
  if (t <= 0) return left.plateA;
  if (t >= 1) return right.plateA;
  const widthBefore = left.gridV - (grids[k - 1] ?? Number.NaN);
  const widthAfter = (grids[k + 2] ?? Number.NaN) - right.gridV;
  const secant = (right.plateA - left.plateA) / width;
  const before = (left.plateA - (curves[k - 1]?.at(plateV) ?? 0)) / widthBefore;
  const after = ((curves[k + 2]?.at(plateV) ?? 0) - right.plateA) / widthAfter;
  const leftRise = width * limitedSlope(before, secant, widthBefore, width);
  const rightRise = width * limitedSlope(secant, after, width, widthAfter);
  return hermite(left.plateA, right.plateA, t, leftRise, rightRise);
}

/** Beyond the end of the shorter curve, the point on the straight border between both ends stands in for it. */
function toBorder(
  point: Point,
  other: Point,
  { shorter, longer, plateV }: { shorter: PreparedCurve; longer: PreparedCurve; plateV: number },
): void {
  const share = (plateV - shorter.lastV) / (longer.lastV - shorter.lastV);
  point.gridV += share * (other.gridV - point.gridV);
  point.plateA += share * (longer.at(longer.lastV) - point.plateA);
}

/** Volts to the border: the lowest and highest curve, and the line that joins the ends of all curves. */
function marginIn(
  grids: readonly number[],
  curves: readonly PreparedCurve[],
  { plateV, gridV }: Electrodes,
): number {
  const lowest = grids[0] ?? 0;
  const highest = grids.at(-1) ?? 0;
  const x = Math.min(highest, Math.max(lowest, gridV));
  const k = intervalOf(grids, x);
  const [fromV, toV] = [curves[k]?.lastV ?? 0, curves[k + 1]?.lastV ?? 0];
  const [fromG, toG] = [grids[k] ?? 0, grids[k + 1] ?? 0];
  const reached = fromV + ((toV - fromV) * (x - fromG)) / (toG - fromG);
  const cutOff = gridV < lowest && curves[0]?.at(plateV) === 0;
  const below = cutOff ? Number.POSITIVE_INFINITY : gridV - lowest;
  return Math.min(reached - plateV, below, highest - gridV);
}
