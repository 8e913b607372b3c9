import type { StageDescription } from '../../load/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { StageData } from '../schemas/index.ts';
import type { YamlReading } from '../yaml.ts';
import { partMessages as messages } from './part-messages.ts';
import type { OutputContext } from './stage-output.ts';

interface Place {
  outputs: Pick<OutputContext, 'parts'>;
  yaml: YamlReading;
}

/** Shares of the turns further apart than this contradict each other: half a per cent of the winding. */
const sameShare = 0.005;

/**
 * The stages of a record in distributed load with the screen tap of the transformer that they name where they state
 * none of their own; one that is stated and is another is a problem. With a part of the turns in use the record's share
 * says nothing, and the stage's own is taken.
 */
export function withScreenTaps(
  descriptions: readonly StageDescription[],
  stages: readonly StageData[],
  { outputs, yaml }: Place,
): { descriptions: StageDescription[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const tapped = descriptions.map((description, index) => {
    const stage = stages[index];
    const ofPart = stage && tapOfPart(stage, outputs);
    if (!ofPart || !('tapRatio' in description) || description.connection !== 'distributed-load')
      return description;
    const { tapRatio = null } = description;
    if (tapRatio === null) return { ...description, tapRatio: ofPart.share };
    if (Math.abs(tapRatio - ofPart.share) > sameShare) {
      const fault = messages.anotherScreenTap(share(tapRatio), ofPart.title, share(ofPart.share));
      problems.push(problemAt(yaml.placeOf(['stages', index, 'tapTurns']), fault));
    }
    return description;
  });
  return { descriptions: tapped, problems };
}

const share = (ratio: number) => quantityText(100 * ratio, '%');

/** Null where the stage names no transformer with a screen tap, or uses a part of its turns. */
function tapOfPart(stage: StageData, { parts }: Place['outputs']): { title: string; share: number } | null {
  if (!('transformer' in stage) || stage.transformer === undefined) return null;
  const part = parts.get(stage.transformer);
  const whole = !('primaryTurns' in stage) || (stage.primaryTurns ?? 1) === 1;
  return part?.screenTap === undefined || !whole ? null : { title: part.title, share: part.screenTap };
}
