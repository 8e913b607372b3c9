export * from './frequency-sweep.ts';
export * from './impedance-sweep.ts';
export * from './level-sweep.ts';
export * from './sine-fit.ts';
export * from './spectrum.ts';
export { repeatStatistics } from './statistics.ts';
export * from './summarise-waveform.ts';
export * from './types.ts';
export { cosineWindow, type WindowName, windowNames, windowValues } from './windows.ts';
