import type { DistortionLine, Fundamental, Interval, SignalWarning, Withheld } from '../types.ts';

/** One line at a combination of the two tones, re the upper one; its order is |first| + |second|. */
export interface CombinationLine extends DistortionLine {
  /** "f2 − f1": f1 is the lower tone, f2 the upper one. */
  name: string;
  /** Multiples of the lower and of the upper tone. */
  first: number;
  second: number;
}

/** What an intermodulation figure is referred to, and how its lines are put together: the forms differ by up to 6 dB. */
export interface IntermodulationFigure extends Interval {
  reference: 'upper tone' | 'sum of both tones' | 'mean of both tones';
  form: 'one line' | 'arithmetic sum' | 'root sum of squares';
  /** Names of the lines counted. */
  lines: string[];
}

/** Figures of a low and a high tone, 4 to 1; null members are withheld. */
export interface ModulationDistortion {
  /** f2 ± f1 and f2 ± 2f1, each the arithmetic sum of its two sidebands. */
  second: IntermodulationFigure | null;
  third: IntermodulationFigure | null;
  /** Root sum of squares of those two, and of the four lines themselves. */
  total: IntermodulationFigure | null;
  sidebands: IntermodulationFigure | null;
}

/** Figures of two equal tones close together. */
export interface DifferenceFrequencyDistortion {
  second: IntermodulationFigure | null;
  /** The same line re one tone, twice as much. */
  secondOneTone: IntermodulationFigure | null;
  /** 2f1 − f2 and 2f2 − f1, added and as root sum of squares. */
  third: IntermodulationFigure | null;
  thirdRss: IntermodulationFigure | null;
}

/** What the two tones are made for; null where neither set of figures applies. */
export type TwoTonePattern = 'modulation' | 'difference-frequency' | null;

/** The figures of one channel with two tones. A figure the data cannot support is null and `withheld` says why. */
export interface TwoToneChannelSummary {
  name: string;
  role: 'stimulus' | 'response' | null;
  unit: string;
  dc: number | null;
  rms: number | null;
  /** rms of what is left after the constant, both tones and every fitted line, whole band. */
  noiseRms: number | null;
  tones: {
    lower: Fundamental;
    upper: Fundamental /** rms of lower over upper. */;
    levelRatio: number;
  } | null;
  pattern: TwoTonePattern;
  /** Lines that both tones make together, by order. */
  products: CombinationLine[];
  /** Harmonics of one tone alone. */
  harmonics: CombinationLine[];
  modulation: ModulationDistortion | null;
  differenceFrequency: DifferenceFrequencyDistortion | null;
  clipping: boolean | null;
  levelStep: number | null;
  withheld: Withheld[];
}

export interface TwoToneOptions {
  /** The declared tones, hertz; left out, the two strongest lines, provided that nothing else could be meant. */
  tonesHz?: readonly [number, number];
}

export interface TwoToneSettings {
  highestOrder: number;
  tonesHz: readonly [number, number] | null;
  searchWindow: string;
  falseAlarmPerRecord: number;
  intervalCoverage: number;
}

export interface TwoToneSummary {
  channels: TwoToneChannelSummary[];
  warnings: SignalWarning[];
  settings: TwoToneSettings;
}
