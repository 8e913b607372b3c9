import { followerSheet } from './follower-sheet.ts';
import { withOutput } from './output-stage.ts';
import { pushPullSheet } from './push-pull-sheet.ts';
import { splitterSheet } from './splitter-sheet.ts';
import { tubeStageSheet } from './tube-stage-sheet.ts';
import type { StageContext, StageDescription, StageResult, TubeStageDescription } from './types.ts';

/** True for a tube with a load at its plate, which has plate curves and a load line. */
export function isTubeStage(description: StageDescription): description is TubeStageDescription {
  return description.topology === 'single-ended' || description.topology === 'resistance-coupled';
}

/** The load sheet of one stage; paths of its problems lead from the stage. */
export function stageSheet(description: StageDescription, context: StageContext): StageResult {
  switch (description.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return withOutput(tubeStageSheet(description, context), description, context);
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
