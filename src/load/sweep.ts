import { ratioOf, totalDistortion } from './harmonics-of-period.ts';
import { driveFor, largeSignal } from './large-signal.ts';
import type { AtLoad, RestingStage, SweepRow } from './types.ts';

const stepsPerOctave = 8;
const octaves = 2;

/**
 * 33 loads spaced by an eighth of an octave, from a quarter to four times the middle one, which is among
 * them; further down where the circuit allows no load above `mostOhm`.
 */
export function loadsAround(middleOhm: number, mostOhm = Number.POSITIVE_INFINITY): number[] {
  const top = Math.min(octaves * stepsPerOctave, Math.max(0, topStep(middleOhm, mostOhm)));
  return Array.from(
    { length: 2 * octaves * stepsPerOctave + 1 },
    (_, k) => middleOhm * 2 ** ((top - k) / stepsPerOctave),
  ).reverse();
}

/** The last step at which the load is not above what the circuit allows. */
const topStep = (middleOhm: number, mostOhm: number) =>
  Math.floor(stepsPerOctave * Math.log2(mostOhm / middleOhm) + 1e-9);

/** Each load at the described drive, or at its own largest undisturbed one; loads without a swing are left out. */
export function sweepLoads(
  stage: RestingStage,
  loads: readonly number[],
  describedV: number | null,
): SweepRow[] {
  return loads.flatMap((loadOhm) => {
    const drive = driveFor(stage, loadOhm, describedV);
    const found = drive && largeSignal(stage, loadOhm, drive);
    return found ? [{ ...loadRow(loadOhm, found), limitedBy: found.limitedBy }] : [];
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
