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
  /** Band for THD+N and noise, hertz (default 20 to 20000). */
  bandHz?: [number, number];
}

/** One harmonic of the fundamental; `ratio` and `uncertainty` (one standard deviation) are re the fundamental. */
export interface Harmonic {
  order: number;
  frequencyHz: number;
  ratio: number;
  uncertainty: number;
  /** phase_n − n·phase_1 in degrees, (−180, 180]. */
  relativePhaseDeg: number;
  detected: boolean;
}

export interface Interval {
  ratio: number;
  /** 95 % interval for the true value; see the methods page. */
  low: number;
  high: number;
}

/** The figures of one channel. A figure the data cannot support is null and `withheld` says why. */
export interface ChannelSummary {
  name: string;
  role: 'stimulus' | 'response' | null;
  unit: string;
  dc: number;
  rms: number;
  /** rms of what is left after DC, fundamental and fitted harmonics, whole band. */
  noiseRms: number;
  fundamental: {
    frequencyHz: number;
    frequencyUncertaintyHz: number;
    rms: number;
    rmsUncertainty: number;
    phaseDeg: number;
  } | null;
  harmonics: Harmonic[];
  thd: (Interval & { reference: 'fundamental'; orders: [number, number] }) | null;
  thdPlusNoise: { ratio: number; bandHz: [number, number] } | null;
  sinadDb: number | null;
  clipping: boolean;
  withheld: { figure: string; reason: string }[];
}

/** A finding about a record that a reader must know before trusting a figure. */
export interface SignalWarning {
  rule: string;
  channel: string | null;
  message: string;
  hint?: string;
}

export interface WaveformSummary {
  channels: ChannelSummary[];
  warnings: SignalWarning[];
}

/** Amplitude spectrum for display: rms per line re the unit, with the noise density's level per line. */
export interface AmplitudeSpectrum {
  frequencyHz: Float64Array;
  rms: Float64Array;
  /** Level below which single lines are noise: rms per line, one value per line. */
  floorRms: Float64Array;
  window: string;
  /** Equivalent noise bandwidth in hertz. */
  enbwHz: number;
}
