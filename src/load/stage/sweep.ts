import { ratioOf, totalDistortion } from '../solving/harmonics-of-period.ts';
import type { StageCycle } from '../solving/settle.ts';
import type { AtLoad, RestingStage, SweepRow } from '../types.ts';
import { driveFor, type StageSignal, signalAt } from './large-signal.ts';

const octaves = 4;
const usualCount = 33;

/**
 * 33 loads spaced by an eighth of an octave, from a quarter to four times the middle one, which is among
 * them; further down where the circuit allows no load above `mostOhm`. Another `count` of them is spaced evenly too.
 */
export function loadsAround(
  middleOhm: number,
  { mostOhm = Number.POSITIVE_INFINITY, count = usualCount } = {},
): number[] {
  const stepsPerOctave = (count - 1) / octaves;
  // The last step at which the load is not above what the circuit allows.
  const allowed = Math.floor(stepsPerOctave * Math.log2(mostOhm / middleOhm) + 1e-9);
  const top = Math.min((count - 1) / 2, Math.max(0, allowed));
  return Array.from({ length: count }, (_, k) => middleOhm * 2 ** ((top - k) / stepsPerOctave)).reverse();
}

/** Each load at the described drive, or at its own largest undisturbed one; loads without a swing are left out. */
export function sweepLoads(
  stage: RestingStage,
  loads: readonly number[],
  describedV: number | null,
): SweepRow[] {
  let near: StageCycle | null = null;
  return loads.flatMap((loadOhm) => {
    const drive = driveFor(stage, loadOhm, describedV);
    const found: StageSignal | null = drive && signalAt(stage, loadOhm, drive.driveV, near);
    near = found?.cycle ?? near;
    return drive && found ? [{ ...loadRow(loadOhm, found), limitedBy: drive.limitedBy }] : [];
  });
}

/** What a stage gives at a load, in the figures that loads are compared by. */
export function loadRow(
  loadOhm: number,
  { powerW, harmonics }: Pick<AtLoad, 'powerW' | 'harmonics'>,
): Omit<SweepRow, 'limitedBy'> {
  return {
    loadOhm,
    powerW,
    secondRatio: ratioOf(harmonics, 2),
    thirdRatio: ratioOf(harmonics, 3),
    thdRatio: totalDistortion(harmonics.map(({ ratio }) => ratio)),
  };
}
