import type { Problem } from '../problem/index.ts';

/** What a capture holds; the same words in frontmatter, on the command line and in JSON. */
export type CaptureKind =
  | 'waveform'
  | 'two-tone'
  | 'frequency-sweep'
  | 'level-sweep'
  | 'impedance-sweep'
  | 'spectrum'
  | 'plate-curves'
  | 'readings';

export const captureKinds: readonly CaptureKind[] = [
  'waveform',
  'two-tone',
  'frequency-sweep',
  'level-sweep',
  'impedance-sweep',
  'spectrum',
  'plate-curves',
  'readings',
];

/** What a column measures. A distortion column is a ratio re the fundamental unless it says otherwise. */
export type ColumnQuantity =
  | 'index'
  | 'time'
  | 'frequency'
  | 'voltage'
  | 'current'
  | 'power'
  | 'impedance'
  | 'gain'
  | 'phase'
  | 'thd'
  | 'thd-plus-noise'
  | 'harmonic'
  | 'level'
  | 'temperature'
  | 'number';

export type ChannelRole = 'stimulus' | 'response';
export type LevelAs = 'rms' | 'peak' | 'peak-to-peak';

/** How a person declares one column: `column` is its header or its position counted from 1. */
export interface ColumnDeclaration {
  column: string | number;
  quantity?: ColumnQuantity;
  /** Unit as written in the file's own convention, e.g. `mV`, `dBu`, `%`. */
  unit?: string;
  /** Probe or attenuator ratio: the value at the circuit is the reading times this. */
  scale?: number;
  role?: ChannelRole;
  alternative?: string;
  levelAs?: LevelAs;
  /** Voltage or current of 0 dBFS (rms of a full-scale sine). */
  fullScale?: number;
  /** Value of 0 dB for a column given in dB re a named value, SI. */
  reference?: number;
  /** Which channel a phase, THD or harmonic column belongs to. */
  channel?: string;
  /** Order of a harmonic column, 2 for the second. */
  order?: number;
}

/** A declaration in frontmatter or on the command line; every key outranks what the file says or suggests. */
export interface CaptureDeclaration {
  kind?: CaptureKind;
  encoding?: 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';
  delimiter?: ',' | ';' | '\t' | ' ';
  decimalMark?: '.' | ',';
  /** Lines before the block of numbers that are not data. */
  skip?: number;
  /** Sampling rate in hertz where no time column says it. */
  rateHz?: number;
  /** Key: the name the column gets. Columns left out keep the name and unit the file gives them. */
  columns?: Readonly<Record<string, ColumnDeclaration>>;
  levelAs?: LevelAs;
  fullScale?: number;
  reference?: number;
  /** Load resistance in ohms, needed where a level in watts or dBm becomes a voltage or the reverse. */
  loadOhm?: number;
}

/** One column in SI units. `values` has one entry for each data row. */
export interface Column {
  name: string;
  /** The header as it stands in the file, or null where the file has none. */
  header: string | null;
  /** Position in the file, counted from 1. */
  position: number;
  quantity: ColumnQuantity;
  /** SI unit of `values`: V, A, W, Ω, Hz, s, 1 (plain ratio), deg, °C, or '' for a bare number. */
  unit: string;
  /** Factor from the file's number to the SI value; null where the conversion is logarithmic. */
  factor: number | null;
  /** How the number was converted, for people: "mV, times 0.001", "dBV, as rms voltage". */
  conversion: string;
  role?: ChannelRole;
  alternative?: string;
  channel?: string;
  order?: number;
  /** Set on the column along which a sweep or spectrum runs. */
  axis?: true;
  values: Float64Array;
}

/** What was found around the numbers and what was left out, with the reason for each. */
export interface TableReading {
  encoding: string;
  delimiter: string;
  decimalMark: '.' | ',';
  /** 1-based line of the first row of numbers. */
  firstDataLine: number;
  rows: number;
  /** Lines that are neither data nor header, each with what it was taken for. */
  passedOver: { line: number; text: string; as: 'preamble' | 'header' | 'units' | 'comment' | 'blank' }[];
  /** Key/value pairs found before or beside the data. */
  notes: { key: string; value: string; line: number }[];
}

export interface Sampling {
  rateHz: number;
  /** Where the rate comes from, for people: "time column", "preamble line 4", "declaration". */
  from: string;
  durationS: number;
  /** Largest distance of a time stamp from the uniform grid, as a fraction of one step. */
  largestStepError: number;
  /** True where the stamps are rounded and the rate was recognised within that rounding. */
  rounded: boolean;
}

/** One capture, read. `values` of all columns have equal length. */
export interface Capture {
  kind: CaptureKind;
  table: TableReading;
  /** Signal columns of a waveform; axis and value columns of a sweep, in file order. Time columns are in `sampling`. */
  columns: Column[];
  sampling: Sampling | null;
}

/** Result of reading: the capture, or null when an error makes it unreadable, with every problem found. */
export interface CaptureReading {
  capture: Capture | null;
  problems: Problem[];
  /** What was understood, as a declaration that a person can paste and correct; null for an unreadable file. */
  declaration: CaptureDeclaration | null;
}
