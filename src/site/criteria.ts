import type { Weighing, WeightMove } from '../compare/index.ts';
import { printNumber } from '../quantity/index.ts';

/** How far one weight must move before the ranking changes. */
export function moveText(move: WeightMove | undefined, titles: readonly string[]): string {
  if (!move) return '';
  const { weight, changesAt, rival } = move;
  if (changesAt === null || rival === null) return 'at no weight of it';
  if (changesAt === weight) return 'both are level as it is';
  return `${changesAt > weight ? 'above' : 'below'} ${printNumber(changesAt)}: ${titles[rival] ?? ''} first`;
}

/** The ranking in a sentence. */
export function weighingText(weighing: Weighing | null, titles: readonly string[]): string {
  if (!weighing) return 'No criterion has a weight, so that nothing is ranked.';
  const [first = 0] = weighing.order;
  if (weighing.isTied) return 'By these weights the first two are level.';
  const named = weighing.order.map((index) => titles[index] ?? '').join(', then ');
  const isFirm = weighing.moves.every(({ changesAt }) => changesAt === null);
  const firm = isFirm ? ' No change of a single weight puts another one first.' : '';
  return `By these weights: ${named}. ${titles[first] ?? ''} has ${printNumber(100 * (weighing.totals[first] ?? 0))}\u00a0% of the weight.${firm}`;
}
