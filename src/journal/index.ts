export type { Analysed, Analysis } from './analyse.ts';
export { analysisCache } from './analysis-cache.ts';
export type { ChartKind } from './chart-kinds.ts';
export { publishJournal } from './current.ts';
export { reasonOf } from './files.ts';
export { openLoadFile } from './load-file.ts';
export { markdownSteps } from './markdown-steps.ts';
export { openJournal } from './open.ts';
export type * from './types.ts';
