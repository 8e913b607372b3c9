import { quantityText } from '../../quantity/index.ts';
import type { Candidate } from '../types.ts';
import { explainDisagreement } from './disagreement.ts';
import { explainMoves } from './moves-explanation.ts';
import { percent } from './shared-explanation.ts';

/** Which load: how far the rules are apart and why, how far they move, and where the transformers at hand land. */
export function explainLoads(candidates: readonly Candidate[], chosenOhm: number | null): string[] {
  const rules = candidates.filter(({ part }) => part === null);
  return [
    ...explainDisagreement(rules, chosenOhm),
    ...explainMoves(rules),
    ...candidates.flatMap((one) => (one.part === null ? [] : offered(one))),
  ];
}

const sides = {
  below: ', below that of most power',
  at: ', about that of most power',
  above: ', above that of most power',
} as const;

function offered({ method, loadOhm, powerW, thdRatio, fromMostPowerDb, side }: Candidate): string[] {
  if (loadOhm === null || powerW === null || thdRatio === null || fromMostPowerDb === null) return [];
  const where = side === null ? '' : sides[side];
  const less =
    fromMostPowerDb > -0.05
      ? 'as much as any load gives'
      : `${quantityText(-fromMostPowerDb, 'dB', 2)} less than the most`;
  return [
    `${method} makes a load of ${quantityText(loadOhm, 'Ω')}${where}: ${quantityText(powerW, 'W')} with ` +
      `${percent(thdRatio)} total distortion, ${less}.`,
  ];
}
