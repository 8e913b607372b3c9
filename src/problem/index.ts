export * from './problem.ts';
export * from './nearest.ts';
