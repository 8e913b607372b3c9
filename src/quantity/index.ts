export * from './examples.ts';
export * from './parse.ts';
export * from './price.ts';
export * from './print.ts';
export * from './units.ts';
