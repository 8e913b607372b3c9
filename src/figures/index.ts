export { methods } from './method-texts.ts';
export type * from './methods.ts';
export * from './print.ts';
export * from './registry.ts';
export * from './sweeps.ts';
export type * from './types.ts';
export * from './waveform.ts';
