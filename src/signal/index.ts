export type * from './band-means.ts';
export { ratioMeans } from './band-means.ts';
export type * from './band-noise.ts';
export { chiSquareAbove } from './chi-square.ts';
export * from './distortion-edges.ts';
export type { DistortionLaw } from './distortion-laws.ts';
export * from './effective-degrees.ts';
export type * from './even-odd.ts';
export type { FrequencyBand } from './fractional-octaves.ts';
export { summariseFrequencySweep } from './frequency-sweep.ts';
export * from './frequency-sweep-details.ts';
export * from './gain-fall.ts';
export type * from './hum.ts';
export {
  type ImpedanceDetails,
  type ImpedanceObject,
  impedanceDetails,
} from './impedance-details.ts';
export * from './impedance-sweep.ts';
export { valueAt } from './interpolate.ts';
export { summariseLevelSweep } from './level-sweep.ts';
export * from './level-sweep-details.ts';
export * from './loudspeaker-error.ts';
export * from './noise-density.ts';
export * from './output-impedance.ts';
export type * from './output-power.ts';
export * from './passed-on.ts';
export { rmaWeight, shorterWeight } from './perceptual-weighting.ts';
export type * from './rest-of-distortion.ts';
export type * from './signal-to-noise.ts';
export * from './sine-fit.ts';
export * from './spectrum.ts';
export { repeatStatistics } from './statistics.ts';
export * from './summarise-two-tone.ts';
export * from './summarise-waveform.ts';
export type * from './transfer.ts';
export * from './two-tone-types.ts';
export * from './types.ts';
export * from './weightings.ts';
export { cosineWindow, type WindowName, windowNames, windowValues } from './windows.ts';
export { wrapDegrees } from './wrap-degrees.ts';
