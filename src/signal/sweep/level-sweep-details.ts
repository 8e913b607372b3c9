import { type DistortionMakeUp, distortionMakeUp } from '../record/rest-of-distortion.ts';
import type { LevelSweep, LevelSweepOptions } from '../types.ts';
import {
  type ClippingOnset,
  clippingOnset,
  type DistortionLaw,
  distortionLaw,
  type FittedLaw,
} from './distortion-laws.ts';
import { type GainFall, gainFall } from './gain-fall.ts';
import { drivenColumns } from './level-sweep.ts';

/** What a level sweep says about how distortion grows, and where the amplifier stops. */
export interface LevelSweepDetails {
  /** Laws of the total, where it was measured, and of each harmonic. */
  laws: DistortionLaw[];
  /** Null without a usable column of total harmonic distortion. */
  clippingOnset: ClippingOnset | null;
  gainFall: GainFall;
  /** What THD consists of; null where not both it and single harmonics were measured. */
  makeUp: DistortionMakeUp | null;
}

/** Laws of distortion against level, the onset of clipping and the fall of the gain. */
export function levelSweepDetails(sweep: LevelSweep, options: LevelSweepOptions = {}): LevelSweepDetails {
  const { power, thd, harmonics } = drivenColumns(sweep, options.loadOhm);
  const total = thd.length > 0 ? distortionLaw(null, thd) : null;
  const single = harmonics
    .filter(({ points }) => points.length > 0)
    .map(({ order, points }) => distortionLaw(order, points));
  const driven =
    power && sweep.inputV
      ? Array.from(power.axis, (inputV, i) => ({ inputV, powerW: power.values[i] ?? 0 }))
      : null;
  return {
    laws: [...(total ? [total] : []), ...single].map(plain),
    clippingOnset: total && clippingOnset(thd, total, single),
    gainFall: gainFall(driven),
    makeUp: distortionMakeUp(thd, harmonics),
  };
}

const plain = ({ ratioAt: _line, lastOnLine: _last, ...law }: FittedLaw): DistortionLaw => law;
