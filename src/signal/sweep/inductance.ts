import { straightRun } from '../record/straight-run.ts';
import { studentTwoSided95 } from '../statistics/student.ts';
import type { ImpedancePoint } from './resonance.ts';

/** An inductance read where impedance rises in proportion to frequency. */
export interface ApparentInductance {
  henry: number;
  /** 95 % interval of the mean from the scatter of the readings. */
  low: number;
  high: number;
  rangeHz: [number, number];
  points: number;
  /** From the reactance where phase is there, else from the modulus. */
  by: 'reactance' | 'modulus';
}

/** Proportional to frequency: within 7 % of its first power, over an octave at least. */
const wanted = {
  slope: [0.93, 1.07] as const,
  scatterDb: 0.3,
  leastPoints: 4,
  leastSpanDb: 20 * Math.log10(2),
};
/** Phase from which a reactance dominates, degrees. */
const leastPhaseDeg = 80;

/**
 * The inductance that a sweep shows over the longest stretch in which the modulus is proportional to frequency and
 * the phase, where it was measured, at least 80°. Null where there is no such stretch of an octave: a winding's
 * resistance hides it below, its capacitance above.
 * @source |Z| = 2πfL; circuit theory.
 */
export function apparentInductance(points: readonly ImpedancePoint[]): ApparentInductance | null {
  const runs = stretches(points).flatMap((stretch) => {
    const run = straightRun(stretch.map(onPaper), wanted);
    return run ? [stretch.slice(run.first, run.last + 1)] : [];
  });
  const longest = runs.sort((a, b) => lengthOf(b) - lengthOf(a))[0];
  return longest ? meanOf(longest) : null;
}

const onPaper = ({ atHz, ohm }: ImpedancePoint) => ({ x: 20 * Math.log10(atHz), y: 20 * Math.log10(ohm) });

const lengthOf = (points: readonly ImpedancePoint[]) => (points.at(-1)?.atHz ?? 1) / (points[0]?.atHz ?? 1);

/** Neighbouring points whose phase allows an inductance. */
function stretches(points: readonly ImpedancePoint[]): ImpedancePoint[][] {
  const found: ImpedancePoint[][] = [[]];
  for (const point of points) {
    const allows = point.phaseDeg === null || (point.phaseDeg >= leastPhaseDeg && point.phaseDeg <= 100);
    if (allows) found.at(-1)?.push(point);
    else found.push([]);
  }
  return found;
}

function meanOf(points: readonly ImpedancePoint[]): ApparentInductance {
  const withPhase = points.every(({ phaseDeg }) => phaseDeg !== null);
  const logarithms = points.map(({ atHz, ohm, phaseDeg }) =>
    Math.log((ohm * (withPhase ? Math.sin(((phaseDeg ?? 90) * Math.PI) / 180) : 1)) / (2 * Math.PI * atHz)),
  );
  const count = logarithms.length;
  const mean = logarithms.reduce((sum, value) => sum + value / count, 0);
  const squares = logarithms.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const half = studentTwoSided95(count - 1) * Math.sqrt(squares / (count - 1) / count);
  return {
    henry: Math.exp(mean),
    low: Math.exp(mean - half),
    high: Math.exp(mean + half),
    rangeHz: [points[0]?.atHz ?? 0, points.at(-1)?.atHz ?? 0],
    points: count,
    by: withPhase ? 'reactance' : 'modulus',
  };
}
