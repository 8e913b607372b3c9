import { extremeOf } from './interpolate.ts';
import { isPositive } from './sweep-columns.ts';

/** Columns of an impedance sweep of equal length: hertz and ohms. */
export interface ImpedanceSweep {
  frequencyHz: Float64Array;
  ohm: Float64Array;
}

/** An impedance with the frequency at which it was measured. */
export interface OhmAt {
  ohm: number;
  atHz: number;
}

/** The smallest and the largest modulus among the measured points; null for a sweep without a usable point. */
export interface ImpedanceSweepSummary {
  minimum: OhmAt | null;
  maximum: OhmAt | null;
}

/** The extremes of an impedance sweep, at measured points; points that are not above zero are left out. */
export function summariseImpedanceSweep({ frequencyHz, ohm }: ImpedanceSweep): ImpedanceSweepSummary {
  const usable = [...ohm.keys()].filter(
    (row) => isPositive(ohm[row] ?? 0) && isPositive(frequencyHz[row] ?? 0),
  );
  const curve = {
    axis: Float64Array.from(usable, (row) => frequencyHz[row] ?? 0),
    values: Float64Array.from(usable, (row) => ohm[row] ?? 0),
  };
  const extreme = (sign: 1 | -1): OhmAt | null => {
    const found = extremeOf(curve, (value) => sign * value);
    return found && { ohm: found.value, atHz: found.at };
  };
  return { minimum: extreme(-1), maximum: extreme(1) };
}
