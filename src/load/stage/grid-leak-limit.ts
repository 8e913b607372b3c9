import type { LimitRow, RatedTube, TubeStageDescription } from '../types.ts';
import { rowFor } from './limits.ts';

/** The stage's own grid leak against the rating for its kind of bias; no row where none is stated. */
export function gridLeakLimit(
  { type, ratings }: RatedTube,
  { gridLeakOhm, bias }: Pick<TubeStageDescription, 'gridLeakOhm' | 'bias'>,
): LimitRow[] {
  if (gridLeakOhm == null) return [];
  const rating = bias.kind === 'cathode-resistor' ? ratings.gridLeakCathodeBias : ratings.gridLeakFixedBias;
  return [rowFor(type)('grid leak', gridLeakOhm, 'Ω', rating)];
}
