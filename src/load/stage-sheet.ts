import { followerSheet } from './follower/follower-sheet.ts';
import { withOutput } from './output/output-stage.ts';
import { pushPullSheet } from './push-pull/push-pull-sheet.ts';
import { splitterSheet } from './splitter/splitter-sheet.ts';
import { tubeStageSheet } from './stage/tube-stage-sheet.ts';
import type { StageContext, StageDescription, StageResult } from './types.ts';

/** The load sheet of one stage; paths of its problems lead from the stage. */
export function stageSheet(description: StageDescription, context: StageContext): StageResult {
  switch (description.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return withOutput(tubeStageSheet(description, context), description);
    case 'push-pull':
      return pushPullSheet(description, context);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return splitterSheet(description, context);
    case 'follower':
    case 'follower-pair':
      return followerSheet(description, context);
  }
}
