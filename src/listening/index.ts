export * from './key-file.ts';
export * from './levels.ts';
export * from './plan.ts';
export * from './result.ts';
export * from './sheet.ts';
export * from './words.ts';
