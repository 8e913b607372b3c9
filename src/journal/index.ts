export type { Analysed, Analysis } from './analysis/analyse.ts';
export { analysisCache } from './analysis/analysis-cache.ts';
export type { ChartKind } from './analysis/chart-kinds.ts';
export { publishJournal } from './current.ts';
export { reasonOf, sentenceOf } from './files.ts';
export { markdownSteps } from './markdown-steps.ts';
export { type Opened, type OpenOptions, openJournal, withoutRepeats } from './open.ts';
export { openLoadFile } from './stages/load-file.ts';
export type * from './types.ts';
