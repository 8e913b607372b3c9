export * from './from-curves.ts';
export * from './mark-marks.ts';
export * from './plots.ts';
export * from './readings.ts';
export * from './stretch.ts';
