import type {
  LoadFault,
  PushPullDescription,
  StageDescription,
  TubeStageDescription,
} from '../../load/index.ts';
import type { Problem } from '../../problem/index.ts';
import { type StageData, stageDescription } from '../schemas/index.ts';
import type { YamlReading } from '../yaml.ts';
import { readTracedCurves } from './traced-curves.ts';

/** The folder that paths are held inside, and the record that writes them. */
export interface SheetOrigin {
  root: string;
  file: string;
}

/** The stages as the load room takes them, with the traced curves that they name. */
export function describeStages(
  stages: readonly StageData[],
  yaml: YamlReading,
  { root, file }: SheetOrigin,
): { descriptions: StageDescription[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const descriptions = stages.map((stage, index): StageDescription => {
    const description = stageDescription(stage);
    if (!('curves' in stage) || stage.curves === undefined || !takesCurves(description)) return description;
    const path = ['stages', index, 'curves'];
    const read = readTracedCurves({ root, record: file, written: stage.curves, yaml, path });
    problems.push(...read.problems);
    return { ...description, curves: read.family ?? { name: stage.curves, curves: [] } };
  });
  return { descriptions, problems };
}

const takesCurves = (
  description: StageDescription,
): description is TubeStageDescription | PushPullDescription =>
  description.topology === 'single-ended' ||
  description.topology === 'resistance-coupled' ||
  description.topology === 'push-pull';

/** True for the fault of curves that are empty because their file could not be used, which is told already. */
export const isToldAlready = (
  { rule, path }: LoadFault,
  descriptions: readonly StageDescription[],
): boolean => {
  const stage = path[0] === 'stages' && typeof path[1] === 'number' ? descriptions[path[1]] : undefined;
  const curves = stage && 'curves' in stage ? stage.curves : null;
  return rule === 'load/traced-curves' && curves?.curves.length === 0;
};
