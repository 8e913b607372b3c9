import { tubeStageSheet } from './tube-stage-sheet.ts';
import type { LoadFault, StageContext, StageDescription, StageSheet } from './types.ts';

export interface StageResult {
  sheet: StageSheet;
  problems: LoadFault[];
}

/** The load sheet of one stage; paths of its problems lead from the stage. */
export function stageSheet(description: StageDescription, context: StageContext): StageResult {
  switch (description.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeStageSheet(description, context);
  }
}
