import type { TopLevelSpec } from 'vega-lite';
import type { ExploredChart } from './explored.ts';

/** A table beside a chart: the numbers it draws, already printed. */
export interface ChartTable {
  columns: { title: string; unit?: string; numeric: boolean }[];
  rows: string[][];
  /** Says when the table is thinned and where the whole data is. */
  note?: string;
}

/** What a chart needs besides its spec. */
export interface ChartText {
  /** Says what the chart shows, as an answer where there is one. */
  title: string;
  /** One or two sentences for somebody who cannot see it. */
  description: string;
}

/** A chart ready for a page: one inlined SVG for light, dark and print. */
export interface RenderedChart extends ChartText {
  /** SVG markup with role="img", title and desc; ids are prefixed so that several can share a page. */
  svg: string;
  table: ChartTable;
  /** Width and height in CSS pixels. */
  width: number;
  height: number;
  /** What Vega or Vega-Lite found wrong with the spec; empty unless the spec is faulty. */
  warnings: string[];
}

/** What a drawing is made of. */
export type Drawable = Pick<Chart, 'spec' | 'text'>;

/** A chart drawn and tidied, before it has a place on a page. */
export interface Drawing extends Pick<RenderedChart, 'width' | 'height' | 'warnings'> {
  /** SVG markup in which a placeholder stands for the key that its ids begin with. */
  markup: string;
  /** What that key is by the drawing and its text alone. */
  key: string;
}

/** The width a chart is designed for: 720 pixels for a page, 360 for a phone. */
export type ChartSize = 'wide' | 'narrow';

/** A layered Vega-Lite spec with its data in `datasets`; every size in pixels is stated in it. */
export type ChartSpec = Extract<TopLevelSpec, { layer: readonly unknown[] }>;

/** One layer of a spec. */
export type ChartLayer = ChartSpec['layer'][number];

/** A chart before it is drawn; `title` of the text belongs above the drawing, as text of the page. */
export interface Chart {
  spec: ChartSpec;
  text: ChartText;
  table: ChartTable;
  /** Its lines as they were given, where it has some over an axis. */
  explored?: ExploredChart;
}

/** A chart that is drawn, without what it was drawn from. */
export interface DrawnChart extends Pick<Chart, 'text' | 'table'> {
  drawing: Drawing;
}

/** No chart: the readings cannot be drawn, and `absent` says why in a sentence. */
export interface AbsentChart {
  absent: string;
  table: ChartTable;
}

/** What a function of specs/ gives: a chart, or the reason why there is none. */
export type ChartResult = Chart | AbsentChart;

/** Readings in order; null (or a value that is not finite) where there is none. */
export type Readings = ArrayLike<number | null>;

export type ChannelRole = 'stimulus' | 'response' | null;

interface WithSource {
  /** Where the whole data is, for the note under the table: usually the name of the capture. */
  source?: string;
}

/** Amplitude spectrum of one channel; all amplitudes are rms in the channel's unit. */
export interface HarmonicSpectrumData extends WithSource {
  channel: string;
  role: ChannelRole;
  /** Ascending, hertz. */
  frequencyHz: Readings;
  rms: Readings;
  /** Level below which single lines are noise, one value per line; null where it is not known. */
  floorRms: Readings | null;
  fundamental: { frequencyHz: number; rms: number } | null;
  /** Orders from 2 up; `ratio` is re the fundamental. */
  harmonics: readonly { order: number; frequencyHz: number; ratio: number; detected: boolean }[];
}

/** Noise density of one channel: rms in a band of one hertz. */
export interface NoiseDensityData extends WithSource {
  channel: string;
  role: ChannelRole;
  /** Unit of the channel. */
  unit: string;
  /** Ascending, hertz. */
  frequencyHz: Readings;
  density: Readings;
  /** Frequencies of the lines of the mains that stand above the noise, ascending. */
  hum: readonly number[];
}

/** Amplitude spectrum of one channel with two tones; all amplitudes are rms in the channel's unit. */
export interface IntermodulationSpectrumData extends WithSource {
  channel: string;
  role: ChannelRole;
  /** Ascending, hertz. */
  frequencyHz: Readings;
  rms: Readings;
  /** Level below which single lines are noise, one value per line; null where it is not known. */
  floorRms: Readings | null;
  tones: { lower: { frequencyHz: number; rms: number }; upper: { frequencyHz: number; rms: number } } | null;
  /** What the tones are for; null for neither. */
  pattern: 'modulation' | 'difference-frequency' | null;
  /** Combinations of the tones, lowest order first; `ratio` is re the upper tone. */
  lines: readonly { name: string; frequencyHz: number; ratio: number; detected: boolean }[];
}

/** One or two channels sampled together. */
export interface WaveformExcerptData extends WithSource {
  rateHz: number;
  /** Sets how long the excerpt is; null shows the whole record, up to 2000 samples. */
  fundamentalHz: number | null;
  /** Cycles shown, 3 unless stated. */
  cycles?: number;
  channels: readonly { name: string; role: ChannelRole; unit: string; values: Readings }[];
}

/** Level or gain re a reference, against frequency. */
export interface ResponseData extends WithSource {
  /** What the level is of, as it stands at the axis: 'Level', 'Gain'. */
  quantity: string;
  /** The frequency at which the level is 0 dB; null where the reference is another. */
  referenceHz: number | null;
  channels: readonly { name: string; frequencyHz: Readings; levelDb: Readings }[];
}

/** One line of distortion against something, as plain ratios (0.01 = 1 %), with its 95 % interval where known. */
interface DistortionLine {
  name: string;
  ratio: Readings;
  low?: Readings;
  high?: Readings;
}

export interface ThdAgainstFrequencyData extends WithSource {
  /** What the ratio is, as it stands at the axis: 'THD', 'THD+N', 'THD, orders 2 to 10'. */
  quantity: string;
  series: readonly (DistortionLine & { frequencyHz: Readings })[];
}

export interface ThdAgainstPowerData extends WithSource {
  quantity: string;
  /**
   * Powers at stated ratios; `marks` comes from the figures where they exist, and is read off the line
   * (linear between readings on logarithmic axes) where it is left out.
   */
  series: readonly (DistortionLine & {
    powerW: Readings;
    marks?: readonly { ratio: number; powerW: number | null }[];
  })[];
}

export interface HarmonicsAgainstFrequencyData extends WithSource {
  channel: string;
  frequencyHz: Readings;
  orders: readonly { order: number; ratio: Readings }[];
}

export interface HarmonicsAgainstPowerData extends WithSource {
  channel: string;
  powerW: Readings;
  orders: readonly { order: number; ratio: Readings }[];
}

/** Harmonics of one channel over output power, by a model and as measured. */
export interface PredictedHarmonicsData extends WithSource {
  channel: string;
  model: { powerW: Readings; orders: readonly { order: number; ratio: Readings }[] };
  measured: { powerW: Readings; orders: readonly { order: number; ratio: Readings }[] };
}

/** Modulus of one or more impedances against frequency, ohms. */
export interface ImpedanceData extends WithSource {
  channels: readonly { name: string; frequencyHz: Readings; ohm: Readings }[];
}

export interface PlatePoint {
  plateV: number;
  plateA: number;
}

/** Plate characteristics with a load line; volts, amperes, watts, ohms. */
export interface LoadLineData extends WithSource {
  device: string;
  curves: readonly { gridV: number; plateV: Readings; plateA: Readings }[];
  /** Two points of the load line, usually where it meets the axes; null where no load is stated. */
  loadLine: readonly [PlatePoint, PlatePoint] | null;
  loadOhm: number | null;
  operatingPoint: (PlatePoint & { gridV: number }) | null;
  /** The path of plate voltage and current over one half or whole cycle at full drive. */
  swing: readonly PlatePoint[];
  dissipationLimitW: number | null;
}

/** A stage over frequency at one drive, into a load that is no resistor. */
export interface LoadOverFrequencyData extends WithSource {
  /** What the load is, as it stands in a sentence: "the loudspeaker on the shelf". */
  into: string;
  /** Ascending, hertz. */
  frequencyHz: Readings;
  powerW: Readings;
  /** Modulus and phase of the load at the plate. */
  loadOhm: Readings;
  phaseDeg: Readings;
  secondRatio: Readings;
  thirdRatio: Readings;
  thdRatio: Readings;
  worst: LoadPlace;
}

/** One frequency of a load that is no resistor. */
export interface LoadPlace {
  frequencyHz: number;
  loadOhm: number;
  phaseDeg: number;
  thdRatio: number;
}

/** A whole cycle into a load that is no resistor, on plate characteristics with the line of the rated load. */
export interface ReactivePathData extends Omit<LoadLineData, 'swing'> {
  path: readonly PlatePoint[];
  at: LoadPlace;
}

/** A transistor stage from no output to the largest sine; watts, efficiency as a plain ratio. */
export interface DissipationAgainstPowerData extends WithSource {
  /** Ascending. */
  powerW: Readings;
  deviceW: Readings;
  efficiency: Readings;
}

export interface DissipationAgainstLoadData extends WithSource {
  /** Ascending, ohms. */
  loadOhm: Readings;
  resistiveW: Readings;
  /** With 45° between voltage and current. */
  reactiveW: Readings;
  chosenOhm: number | null;
}

/** Combined curves of a push-pull pair; currents in amperes, first side less second. */
export interface CombinedLoadLineData extends WithSource {
  device: string;
  /** Plate to plate. */
  loadOhm: number;
  /** Plate voltage of the first side without a swing. */
  restV: number;
  /** By swing of the first grid. */
  combined: readonly { inputV: number; plateV: Readings; plateA: Readings }[];
  /** Each side alone without a swing. */
  sides: readonly { plateV: Readings; plateA: Readings }[];
  /** Half a cycle or a whole one at full drive. */
  path: readonly PlatePoint[];
  /** Where the path is one into a load that is no resistor. */
  at?: LoadPlace;
}

/** Plate currents of both sides of a pair over one cycle, in amperes. */
export interface CurrentsOverCycleData extends WithSource {
  /** From the crest of the first grid, ascending. */
  degrees: Readings;
  firstA: Readings;
  secondA: Readings;
  /** Share of the cycle in which a side is cut off. */
  cutOffShare: number;
}

/** A figure over the versions of an amplifier, in order of time. */
export interface SmallTrendData {
  name: string;
  /** `time` counts milliseconds; `text` is the value as it is printed. */
  points: readonly {
    label: string;
    time: number;
    value: number;
    low?: number;
    high?: number;
    text: string;
  }[];
}

/** One figure over the units of a batch; SI values, plain ratios with unit '1'. */
export interface UnitSpreadData extends WithSource {
  name: string;
  unit: string;
  values: readonly { unit: string; value: number; isOutside: boolean }[];
  least: number | null;
  most: number | null;
}

export interface PowerAgainstLoadData extends WithSource {
  /** Ascending, ohms. */
  loadOhm: Readings;
  powerW: Readings;
  secondRatio: Readings;
  thirdRatio: Readings;
  thdRatio: Readings;
  chosenOhm: number | null;
  /** Loads that a rule proposes, with a short label each. */
  candidates: readonly { label: string; loadOhm: number }[];
}
