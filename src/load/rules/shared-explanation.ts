import { quantityText } from '../../quantity/index.ts';
import type { Candidate, LimitRow } from '../types.ts';
import { mostPower } from './rules.ts';

/** Names of the harmonics by their order. */
export const ordinals = ['', '', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh'];

export const percent = (ratio: number) => quantityText(100 * ratio, '%', ratio >= 1 ? 3 : 2);

export function overRatings(limits: readonly LimitRow[]): string | null {
  const names = limits.filter((row) => row.over).map(({ name, when }) => `${name} ${when ?? ''}`.trim());
  return names.length === 0 ? null : `Above the rating: ${names.join(', ')}.`;
}

/** Only where it is more by at least this. */
const worthAWord = 1.02;

/** What the load of largest power would give instead. */
export function largestPower({
  candidates,
  atLoad,
}: {
  candidates: readonly Candidate[];
  atLoad: { powerW: number; thdRatio: number } | null;
}): string | null {
  const best = candidates.find(({ method }) => method === mostPower.method);
  if (!atLoad || !best?.powerW || best.loadOhm === null || best.thdRatio === null) return null;
  if (best.powerW <= atLoad.powerW * worthAWord) return null;
  const moreDb = 10 * Math.log10(best.powerW / atLoad.powerW);
  return (
    `The most power of the range is ${quantityText(best.powerW, 'W')} at ${quantityText(best.loadOhm, 'Ω')}, ` +
    `${quantityText(moreDb, 'dB', 2)} more than here, with ${percent(best.thdRatio)} instead of ` +
    `${percent(atLoad.thdRatio)} total distortion.`
  );
}

/** What traced curves leave out. */
export const curvesCaution = (file: string) =>
  `These are figures of the curves traced in ${file}, of that specimen at its trace's screen voltage, without grid ` +
  'current; nothing is extrapolated beyond them.';

/** What a model of the tubes leaves out; `circuit` leads over from the tube, saying what else is ideal. */
export function modelCaution({ circuit, hasScreen }: { circuit: string; hasScreen: boolean }): string[] {
  const model =
    `These are figures of a published model of an average tube${circuit} without grid current: compare the ` +
    'current at rest with a measured one.';
  const screen =
    'The screen current of the model does not rise when the plate swings low, as that of a tube does, so that ' +
    'screen dissipation at full drive is too low.';
  return hasScreen ? [model, screen] : [model];
}
