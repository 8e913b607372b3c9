import { type Complex, polar } from '../fit/complex.ts';
import { type Curve, valueAt } from '../sweep/interpolate.ts';
import { ascendingRows, curveOf, isPositive, isReading } from '../sweep/sweep-columns.ts';

/** Level and phase of a sweep, to be read between its points. */
export interface PhasorCurves {
  level: Curve | null;
  phase: Curve | null;
}

/** The columns of a sweep as curves; null for a column without usable values. */
export function phasorCurves({
  frequencyHz,
  level,
  phaseDeg,
}: {
  frequencyHz: Float64Array;
  level: Float64Array;
  phaseDeg?: Float64Array | undefined;
}): PhasorCurves {
  const rows = ascendingRows(frequencyHz, 'frequency');
  const { length } = frequencyHz;
  const phase = { name: 'phase', values: phaseDeg, between: 'straight' as const, usable: isReading };
  const ofLevel = { name: 'level', values: level, between: 'power' as const, usable: isPositive };
  return {
    level: curveOf(ofLevel, rows, length).curve,
    phase: unwrapped(curveOf(phase, rows, length).curve),
  };
}

/** A phase without the jumps of whole turns that its printing makes, so that it can be read between points. */
function unwrapped(phase: Curve | null): Curve | null {
  if (phase === null) return null;
  const values = phase.values.slice();
  for (let i = 1; i < values.length; i++) {
    const step = (values[i] ?? 0) - (values[i - 1] ?? 0);
    values[i] = (values[i] ?? 0) - 360 * Math.round(step / 360);
  }
  return { ...phase, values };
}

/** The phasor at a frequency, of phase zero where phase does not count; null outside the curves. */
export function phasorAt({ level, phase }: PhasorCurves, hertz: number, withPhase: boolean): Complex | null {
  const size = level && valueAt(level, hertz);
  const degrees = withPhase ? phase && valueAt(phase, hertz) : 0;
  return size === null || degrees === null ? null : polar(size, degrees);
}
