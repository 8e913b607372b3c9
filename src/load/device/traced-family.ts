import type { TracedCurve, TracedFamily } from '../types.ts';

/** Columns of a capture of traced curves, one entry for each reading. */
export interface TracedPoints {
  plateV: ArrayLike<number>;
  plateA: ArrayLike<number>;
  gridV: ArrayLike<number>;
  screenA: ArrayLike<number> | null;
}

/** Down to this share of the largest current, a reading below zero is an offset of the tracer and counts as zero. */
const negativeShare = 0.01;

interface Point {
  plateV: number;
  plateA: number;
  screenA: number;
}

/**
 * The curves of a tracing: readings of one grid voltage together, by rising plate voltage; readings at the
 * same two voltages are averaged.
 */
export function tracedFamily(name: string, points: TracedPoints): TracedFamily {
  const byGrid = new Map<number, Point[]>();
  for (let k = 0; k < points.gridV.length; k++) {
    const gridV = points.gridV[k] ?? 0;
    const { plateV, plateA, screenA } = points;
    const point = { plateV: plateV[k] ?? 0, plateA: plateA[k] ?? 0, screenA: screenA?.[k] ?? 0 };
    const readings = byGrid.get(gridV);
    if (readings) readings.push(point);
    else byGrid.set(gridV, [point]);
  }
  const curves = [...byGrid]
    .sort(([a], [b]) => a - b)
    .map(([gridV, readings]) => curveOf(gridV, readings, points.screenA !== null));
  return { name, curves };
}

function curveOf(gridV: number, readings: readonly Point[], withScreen: boolean): TracedCurve {
  const points = averaged(readings.toSorted((a, b) => a.plateV - b.plateV));
  return {
    gridV,
    plateV: points.map(({ plateV }) => plateV),
    plateA: points.map(({ plateA }) => plateA),
    screenA: withScreen ? points.map(({ screenA }) => screenA) : null,
  };
}

/** One point for each plate voltage. */
function averaged(readings: readonly Point[]): Point[] {
  const byPlate = Map.groupBy(readings, ({ plateV }) => plateV);
  return [...byPlate].map(([plateV, same]) => {
    const mean = (of: (point: Point) => number) =>
      same.reduce((sum, point) => sum + of(point), 0) / same.length;
    return { plateV, plateA: mean((point) => point.plateA), screenA: mean((point) => point.screenA) };
  });
}

/** Why a family gives no device; null where it does. */
export function faultOfFamily({ curves }: TracedFamily): string | null {
  if (curves.length < 2) return 'they hold a single grid voltage';
  const short = curves.find(({ plateV }) => plateV.length < 2);
  if (short) return `the curve of ${short.gridV} V has a single plate voltage`;
  const numbers = curves.flatMap(({ gridV, plateV, plateA, screenA }) => [
    ...[gridV, ...plateV, ...plateA],
    ...(screenA ?? []),
  ]);
  if (!numbers.every((value) => Number.isFinite(value))) return 'they hold a value that is not a number';
  const currents = curves.flatMap(({ plateA, screenA }) => [...plateA, ...(screenA ?? [])]);
  const { least, most } = extremesOf(currents);
  if (most <= 0) return 'they hold no current';
  return least < -negativeShare * most ? 'they hold a current well below zero' : null;
}

function extremesOf(values: readonly number[]) {
  return values.reduce(
    ({ least, most }, value) => ({ least: Math.min(least, value), most: Math.max(most, value) }),
    { least: 0, most: 0 },
  );
}

/** True where every curve has its screen current. */
export const hasScreenCurrent = ({ curves }: TracedFamily): boolean =>
  curves.every(({ screenA }) => screenA !== null);
