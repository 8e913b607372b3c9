import { studentTwoSided95 } from '../statistics/student.ts';

/** A reading on log-log paper, both in decibels; `x` ascends. */
export interface PaperPoint {
  x: number;
  y: number;
}

/** What a run must satisfy to be called straight. */
export interface Straightness {
  /** Slopes that are looked for, decibels per decibel. */
  slope: readonly [number, number];
  /** Largest standard deviation of the readings from the line, decibels. */
  scatterDb: number;
  leastPoints: number;
  /** Least length along the axis, decibels. */
  leastSpanDb: number;
}

/** A straight run of readings: y = intercept + slope·x between the readings `first` and `last`. */
export interface StraightRun {
  first: number;
  last: number;
  slope: number;
  /** Half of the 95 % interval that the scatter about the line gives the slope. */
  slopeHalfWidth: number;
  intercept: number;
  scatterDb: number;
}

/** At most this many points are compared pair by pair; more are averaged in neighbouring groups of equal size. */
const most = 600;
/** Mean departure allowed to the three readings at either end, which a bend would lift off the line. */
const endsDb = 0.5;

/**
 * The longest run of readings that one line describes. Runs that bend are refused by their ends, so that a run stops
 * before the noise at its lower end and before the knee at its upper end. Null where there is none.
 * @source least squares of a straight line and the interval of its slope: JCGM 100:2008, H.3, and any textbook.
 */
export function straightRun(points: readonly PaperPoint[], wanted: Straightness): StraightRun | null {
  const group = Math.ceil(points.length / most);
  const thinned = group > 1 ? averaged(points, group) : points;
  const sums = runningSums(thinned);
  let best: StraightRun | null = null;
  let longest = 0;
  for (let first = 0; first + wanted.leastPoints <= thinned.length; first++) {
    for (let last = thinned.length - 1; last - first + 1 >= wanted.leastPoints; last--) {
      const span = (thinned[last]?.x ?? 0) - (thinned[first]?.x ?? 0);
      if (span < wanted.leastSpanDb || span <= longest) break;
      const line = lineOf(sums, first, last);
      if (line && isStraight(line, thinned, wanted)) [best, longest] = [line, span];
    }
  }
  return (
    best && { ...best, first: best.first * group, last: Math.min(points.length, (best.last + 1) * group) - 1 }
  );
}

function averaged(points: readonly PaperPoint[], group: number): PaperPoint[] {
  return Array.from({ length: Math.ceil(points.length / group) }, (_, i) => {
    const part = points.slice(i * group, (i + 1) * group);
    const mean = (pick: (point: PaperPoint) => number) =>
      part.reduce((sum, point) => sum + pick(point) / part.length, 0);
    return { x: mean(({ x }) => x), y: mean(({ y }) => y) };
  });
}

interface Sums {
  centre: PaperPoint;
  /** Running sums of x, y, xx, xy and yy about the centre, one entry more than there are points. */
  running: [number, number, number, number, number][];
}

function runningSums(points: readonly PaperPoint[]): Sums {
  const mean = (pick: (point: PaperPoint) => number) =>
    points.reduce((sum, point) => sum + pick(point) / points.length, 0);
  const centre = { x: mean(({ x }) => x), y: mean(({ y }) => y) };
  const running: Sums['running'] = [[0, 0, 0, 0, 0]];
  for (const point of points) {
    const [x, y] = [point.x - centre.x, point.y - centre.y];
    const [sx, sy, sxx, sxy, syy] = running.at(-1) ?? [0, 0, 0, 0, 0];
    running.push([sx + x, sy + y, sxx + x * x, sxy + x * y, syy + y * y]);
  }
  return { centre, running };
}

function lineOf({ centre, running }: Sums, first: number, last: number): StraightRun | null {
  const [from, to] = [running[first], running[last + 1]];
  if (!from || !to) return null;
  const count = last - first + 1;
  const [x, y, xx, xy, yy] = to.map((value, i) => value - (from[i] ?? 0)) as Sums['running'][number];
  const [spread, product] = [xx - (x * x) / count, xy - (x * y) / count];
  if (!(spread > 0)) return null;
  const slope = product / spread;
  const rest = Math.max(0, yy - (y * y) / count - slope * product);
  const scatterDb = Math.sqrt(rest / (count - 2));
  const slopeHalfWidth = (studentTwoSided95(count - 2) * scatterDb) / Math.sqrt(spread);
  const intercept = centre.y + y / count - slope * (centre.x + x / count);
  return { first, last, slope, slopeHalfWidth, intercept, scatterDb };
}

function isStraight(line: StraightRun, points: readonly PaperPoint[], wanted: Straightness): boolean {
  const { first, last, slope, intercept, scatterDb } = line;
  if (slope < wanted.slope[0] || slope > wanted.slope[1] || scatterDb > wanted.scatterDb) return false;
  const departure = (from: number) =>
    points.slice(from, from + 3).reduce((sum, { x, y }) => sum + (y - intercept - slope * x) / 3, 0);
  return Math.abs(departure(first)) <= endsDb && Math.abs(departure(last - 2)) <= endsDb;
}
