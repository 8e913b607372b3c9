export * from './nearest.ts';
export * from './problem.ts';
