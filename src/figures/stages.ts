export { candidateRow, candidatesOf, missingMoves, moveRows } from './blocks/candidate-rows.ts';
export * from './blocks/chain-rows.ts';
export type * from './blocks/fact-block.ts';
export * from './blocks/stage-blocks.ts';
export * from './blocks/supply-blocks.ts';
export * from './stage/predicted.ts';
export { stageFigures } from './stage/stage-figures.ts';
