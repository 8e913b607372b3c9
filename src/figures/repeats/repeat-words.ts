import { printNumber } from '../../quantity/index.ts';
import type { FigureDifference, KnownScatter } from './difference.ts';
import type { RepeatedFigure } from './repeats.ts';

/** What decides how far repeats of a figure scatter, in words. */
export function scatterText({ scattersMore, standardDeviation, recordUncertainty }: RepeatedFigure): string {
  if (scattersMore === null || recordUncertainty === null)
    return 'The records do not say how far noise goes.';
  const times = printNumber(standardDeviation / recordUncertainty, 2);
  return scattersMore
    ? `The set-up, not the noise: ${times} times what the records’ noise gives.`
    : `Nothing beyond noise: ${times} times what the records’ noise gives.`;
}

/** What may be said of a difference, in words. */
export function verdictText({ verdict, absent, scatter, low }: FigureDifference): string {
  if (absent !== undefined) return `${verdict}: ${absent}`;
  const unbounded = verdict === 'cannot be told apart' && scatter === 'neither' && low === undefined;
  return unbounded ? `${verdict}: there are neither intervals nor repeats` : verdict;
}

/** Of which sides the scatter is known, and of which of them it is a declared one. */
export type ScatterBasis = Pick<FigureDifference, 'scatter' | 'declared'>;

/** What a verdict rests on, in a sentence; `names` are those of the first and of the second side. */
export function scatterBasis({ scatter, declared }: ScatterBasis, names: [string, string]): string {
  if (scatter === 'both') return bothKnown(declared, names);
  if (scatter === 'neither')
    return 'Neither was repeated, so it is not known whether the next captures would say the same.';
  const side = scatter === 'first' ? names[0] : names[1];
  return declared === 'neither'
    ? `Only ${side} was repeated; its scatter is taken to hold for both.`
    : `Neither was repeated; a scatter declared for ${side} is taken to hold for both.`;
}

function bothKnown(declared: KnownScatter, [first, second]: [string, string]): string {
  switch (declared) {
    case 'neither':
      return 'Both were repeated.';
    case 'both':
      return 'Neither was repeated; the scatter of both was declared from earlier captures.';
    case 'first':
    case 'second': {
      const [known, stated] = declared === 'first' ? [second, first] : [first, second];
      return `${known} was repeated; the scatter of ${stated} was declared from earlier captures.`;
    }
  }
}
