import { explainOutput } from '../output/output-explanation.ts';
import { noOutput } from '../output/output-messages.ts';
import { outputFigures } from '../output/output-stage.ts';
import { pairOnTransformer, realLoad } from '../output/real-load.ts';
import type { StageResult } from '../types.ts';
import type { PairAtRest } from './push-pull-stage.ts';
import type { PushPullDescription, PushPullSheet } from './push-pull-types.ts';

/**
 * Adds to a pair's sheet what its transformer and loudspeaker do. The source across the whole primary is both sides
 * in series, each with its slope at rest; what their currents differ by flows in half of the turns.
 */
export function withPairOutput(
  result: StageResult<PushPullSheet>,
  { output }: PushPullDescription,
  pair: PairAtRest | null,
): StageResult<PushPullSheet> {
  const { sheet, problems } = result;
  if (!output) return result;
  if (!pair) return { sheet: { ...sheet, absent: { ...sheet.absent, output: noOutput() } }, problems };
  const { atLoad, operatingPoint, count } = sheet;
  const rpOhm = operatingPoint?.rpOhm ?? null;
  const [first, second] = pair.sides;
  const unbalanceA = first.plateCurrent(pair.rest) - second.plateCurrent(pair.rest);
  const { transformer } = output;
  // A core that is rated for no direct current is one without a gap.
  const rated = { ...transformer, ratedDirectA: transformer.ratedDirectA ?? 0 };
  const found = outputFigures(
    { ...output, transformer: rated },
    {
      directA: Math.abs(unbalanceA) / 2,
      plateOhm: rpOhm === null ? null : (2 * rpOhm) / count,
      powerW: atLoad?.powerW ?? null,
      onReal: () => atLoad && realLoad(pairOnTransformer(pair, atLoad.driveV), output),
    },
  );
  return {
    ...result,
    sheet: {
      ...sheet,
      output: found.output,
      explanation: [...sheet.explanation, ...explainOutput(found.output, null)],
      absent: { ...sheet.absent, ...found.absent },
    },
  };
}
