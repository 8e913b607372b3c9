import type { RatedOutput } from './noise/signal-to-noise.ts';
import type { WeightedDistortion } from './record/perceptual-weighting.ts';
import type { Transfer } from './record/transfer.ts';
import type { ChannelDetails } from './record/waveform-details.ts';

/** One channel of a waveform: samples at a uniform rate, in SI units. */
export interface Channel {
  name: string;
  role: 'stimulus' | 'response' | null;
  unit: string;
  values: Float64Array;
}

export interface WaveformOptions {
  /** Highest harmonic order fitted and counted (default 10); orders at or above half the rate are left out. */
  harmonics?: number;
  /** Band for THD+N, SINAD and noise, hertz (default 20 to 20000). */
  bandHz?: [number, number];
  /** Nominal frequency of the mains (default 50). */
  mainsHz?: number;
  /** Load at the responses, for their power. */
  loadOhm?: number;
  /** What the amplifier is rated to deliver, for its signal-to-noise ratio. */
  rated?: RatedOutput;
  /** Where the instrument's band ends; below half the sampling rate it lets nothing fold. */
  bandwidthHz?: number;
}

/** A line that distortion makes; `ratio` and `uncertainty` (one standard deviation) are re a tone of the signal. */
export interface DistortionLine {
  order: number;
  frequencyHz: number;
  ratio: number;
  /** Standard deviation of the line's component in any one phase, from the residual's density near it. */
  uncertainty: number;
  /** 95 % interval for the true ratio; on noise alone it begins at 0 and may exclude the raw ratio. */
  low: number;
  high: number;
  /** Phase less that of each tone times its multiple, in degrees, (−180, 180]. */
  relativePhaseDeg: number;
  /** False where noise alone could have given this ratio; see `AnalysisSettings.falseAlarmPerRecord`. */
  detected: boolean;
}

/** One harmonic, re the fundamental. */
export interface Harmonic extends DistortionLine {
  /** Orders above half the sampling rate that may appear on this line; left out where there are none. */
  foldedOrders?: number[];
}

export interface Interval {
  /** Raw root sum of squares of the fitted harmonics over the fundamental; may lie outside the interval. */
  ratio: number;
  /** 95 % interval for the true value; see the methods page. */
  low: number;
  high: number;
}

export interface Thd extends Interval {
  reference: 'fundamental';
  /** First and last order counted. */
  orders: [number, number];
}

export interface Fundamental {
  frequencyHz: number;
  frequencyUncertaintyHz: number;
  rms: number;
  rmsUncertainty: number;
  /** What the two uncertainties, standard deviations, are multiplied by for a 95 % interval: Student's t. */
  coverageFactor: number;
  /** Degrees of freedom behind it: independent lines that the noise was read from. */
  freedom: number;
  /** Phase of a cosine at the first sample, degrees, (−180, 180]. */
  phaseDeg: number;
}

export interface ThdPlusNoise {
  /** rms in the band of everything but constant and fundamental, re the fundamental. */
  ratio: number;
  reference: 'fundamental';
  /** The band used, which may be narrower than the one asked for. */
  bandHz: [number, number];
}

/** A figure that does not exist, and why. */
export interface Withheld {
  figure: string;
  reason: string;
}

/** The figures of one channel. A figure the data cannot support is null and `withheld` says why. */
export interface ChannelSummary extends ChannelDetails {
  name: string;
  role: 'stimulus' | 'response' | null;
  unit: string;
  /** Constant of the fit; the mean where nothing could be fitted. */
  dc: number | null;
  /** Root mean square of all samples, constant included. */
  rms: number | null;
  /** rms of what is left after DC, fundamental and fitted harmonics, whole band; after DC where there is no line. */
  noiseRms: number | null;
  fundamental: Fundamental | null;
  harmonics: Harmonic[];
  thd: Thd | null;
  /** Harmonics weighted for what is heard; contested. */
  weightedDistortion: WeightedDistortion | null;
  thdPlusNoise: ThdPlusNoise | null;
  /** Fundamental over everything else in the band of THD+N, decibels. */
  sinadDb: number | null;
  /** True where tops or bottoms are flat; null without a fundamental, or for samples of very few levels. */
  clipping: boolean | null;
  /** Step between the levels of the record, in its unit; null where none shows. */
  levelStep: number | null;
  withheld: Withheld[];
}

/** A finding about a record that a reader must know before trusting a figure. */
export interface SignalWarning {
  rule: string;
  channel: string | null;
  message: string;
  hint?: string;
}

/** What a summary was computed with. */
export interface AnalysisSettings {
  harmonics: number;
  bandHz: [number, number];
  /** Nominal frequency of the mains. */
  mainsHz: number;
  searchWindow: string;
  /** Probability that noise alone gets any harmonic of a channel marked as detected. */
  falseAlarmPerRecord: number;
  intervalCoverage: number;
}

export interface WaveformSummary {
  channels: ChannelSummary[];
  /** From stimuli to responses. */
  transfers: Transfer[];
  warnings: SignalWarning[];
  settings: AnalysisSettings;
}

/** Amplitude spectrum for display: rms per line re the unit, with the noise density's level per line. */
export interface AmplitudeSpectrum {
  frequencyHz: Float64Array;
  rms: Float64Array;
  /** The noise's rms in one line: single lines reach it by noise alone. One value per line. */
  floorRms: Float64Array;
  window: string;
  /** Equivalent noise bandwidth in hertz. */
  enbwHz: number;
  /** Decibels that a sine in the middle between two lines reads too low. */
  scallopingDb: number;
}

/** Columns measured at one level against frequency; all arrays have the length of `frequencyHz`. */
export interface FrequencySweep {
  frequencyHz: Float64Array;
  /** rms, SI. Used before `gainDb` where both are given. */
  level?: Float64Array;
  gainDb?: Float64Array;
  phaseDeg?: Float64Array;
  /** Plain ratio re the fundamental. */
  thd?: Float64Array;
  harmonics?: readonly HarmonicColumn[];
}

export interface HarmonicColumn {
  order: number;
  /** Plain ratio re the fundamental. */
  ratio: Float64Array;
}

export interface FrequencySweepOptions {
  /** Where the response is 0 dB (default 1000). */
  referenceHz?: number;
  /** Band of the largest deviation (default 20 to 20000). */
  bandHz?: [number, number];
  /** Further frequencies at which every column's value is wanted. */
  atHz?: readonly number[];
}

/** Frequencies between which the response stays above the reference less `dropDb`, seen from the reference outwards. */
export interface ResponseLimits {
  dropDb: number;
  lowerHz: number | null;
  upperHz: number | null;
}

export interface FrequencyResponse {
  referenceHz: number;
  /** rms, SI; null for a sweep of gain. */
  referenceLevel: number | null;
  /** Null for a sweep of level. */
  referenceGainDb: number | null;
  limits: ResponseLimits[];
  /** The largest distance from 0 dB within the part of the band that the sweep covers, with its sign. */
  deviation: { db: number; atHz: number; bandHz: [number, number] } | null;
}

/** An extreme of a distortion column. */
export interface RatioAt {
  ratio: number;
  atHz: number;
}

/** The figures of one distortion column of a frequency sweep. */
export interface DistortionColumn {
  /** Null for the total. */
  order: number | null;
  atReference: number | null;
  minimum: RatioAt;
  maximum: RatioAt;
}

/** Every column's value at one frequency, interpolated over the logarithm of frequency; null where it has none. */
export interface SweepValues {
  frequencyHz: number;
  level: number | null;
  gainDb: number | null;
  phaseDeg: number | null;
  thd: number | null;
  harmonics: { order: number; ratio: number | null }[];
}

export interface FrequencySweepSummary {
  points: number;
  rangeHz: [number, number] | null;
  response: FrequencyResponse | null;
  distortion: DistortionColumn[];
  at: SweepValues[];
  withheld: Withheld[];
  warnings: SignalWarning[];
}

/** Columns measured at one frequency against level; all arrays have equal length. */
export interface LevelSweep {
  /** Input voltage, rms: the drive that orders the points; without it, output power orders them. */
  inputV?: Float64Array;
  /** Output power. Without it, it is computed from `outputV` and the load. */
  powerW?: Float64Array;
  /** Output voltage, rms. */
  outputV?: Float64Array;
  /** Plain ratio re the fundamental. */
  thd?: Float64Array;
  harmonics?: readonly HarmonicColumn[];
}

export interface LevelSweepOptions {
  loadOhm?: number;
  /** Distortion at which output power is wanted (default 1 %, 3 %, 10 %). */
  thdRatios?: readonly number[];
  /** Powers at which distortion is wanted (default 1 W). */
  powersW?: readonly number[];
}

export interface LevelSweepSummary {
  points: number;
  /** The two ends of the sweep in order of drive. */
  ends: { powerW: number; thd: number | null }[];
  largestPowerW: number | null;
  powerAtThd: { thdRatio: number; powerW: number | null }[];
  atPower: { powerW: number; thd: number | null; harmonics: { order: number; ratio: number | null }[] }[];
  withheld: Withheld[];
  warnings: SignalWarning[];
}
