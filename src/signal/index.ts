export * from './fit/sine-fit.ts';
export type * from './noise/band-noise.ts';
export type * from './noise/hum.ts';
export * from './noise/noise-density.ts';
export type * from './noise/signal-to-noise.ts';
export * from './noise/spectrum.ts';
export * from './noise/weightings.ts';
export { cosineWindow, type WindowName, windowNames, windowValues } from './noise/windows.ts';
export type * from './record/even-odd.ts';
export type * from './record/output-power.ts';
export * from './record/passed-on.ts';
export { rmaWeight, shorterWeight } from './record/perceptual-weighting.ts';
export type * from './record/rest-of-distortion.ts';
export * from './record/summarise-waveform.ts';
export type * from './record/transfer.ts';
export { wrapDegrees } from './record/wrap-degrees.ts';
export { chiSquareAbove } from './statistics/chi-square.ts';
export * from './statistics/effective-degrees.ts';
export { repeatStatistics } from './statistics/statistics.ts';
export { studentExceeded } from './statistics/student.ts';
export type * from './sweep/band-means.ts';
export { ratioMeans } from './sweep/band-means.ts';
export * from './sweep/distortion-edges.ts';
export type { DistortionLaw } from './sweep/distortion-laws.ts';
export type { FrequencyBand } from './sweep/fractional-octaves.ts';
export { summariseFrequencySweep } from './sweep/frequency-sweep.ts';
export * from './sweep/frequency-sweep-details.ts';
export * from './sweep/gain-fall.ts';
export {
  type ImpedanceDetails,
  type ImpedanceObject,
  impedanceDetails,
} from './sweep/impedance-details.ts';
export * from './sweep/impedance-sweep.ts';
export { valueAt } from './sweep/interpolate.ts';
export { summariseLevelSweep } from './sweep/level-sweep.ts';
export * from './sweep/level-sweep-details.ts';
export * from './sweep/loudspeaker-error.ts';
export * from './sweep/output-impedance.ts';
export * from './two-tone/summarise-two-tone.ts';
export * from './two-tone/two-tone-types.ts';
export * from './types.ts';
