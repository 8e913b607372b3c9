import { z } from 'zod';
import type { StageDescription } from '../../load/index.ts';
import { distinctIds } from './fields.ts';
import { followerDescription, followerSchema } from './stages/follower.ts';
import { pushPullDescription, pushPullSchema } from './stages/push-pull.ts';
import {
  cathodeFollowerSchema,
  longTailedSchema,
  splitLoadSchema,
  splitterDescription,
} from './stages/splitter-stages.ts';
import { tubeStageDescription, tubeStageSchema } from './stages/tube-stage.ts';

/** One stage, in a version record or in a stand-alone file; the topology decides which keys it has. */
const stageSchema = z.discriminatedUnion('topology', [
  tubeStageSchema,
  pushPullSchema,
  followerSchema,
  cathodeFollowerSchema,
  splitLoadSchema,
  longTailedSchema,
]);

/** The stages of an amplifier, each with an id of its own. */
export const stagesSchema = z.array(stageSchema).superRefine(distinctIds).default([]);

export type StageData = z.infer<typeof stageSchema>;

/** The stage as the load room takes it. */
export function stageDescription(stage: StageData): StageDescription {
  switch (stage.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeStageDescription(stage);
    case 'push-pull':
      return pushPullDescription(stage);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterDescription(stage);
    case 'follower':
    case 'follower-pair':
      return followerDescription(stage);
  }
}
