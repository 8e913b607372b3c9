/** Cathode followers and phase splitters. All values SI: volts, amperes, ohms. */

import type { AnyStageSheet, Harmonic, OperatingPoint, SwingLimit } from '../sheet-types.ts';

/** What holds the grid at rest: a voltage to ground, or a leak to the lower end of a bias resistor. */
export type GridFeed = { kind: 'voltage'; gridV: number } | { kind: 'tap'; ohm: number };

/** What the joined cathodes of a long-tailed pair stand on: a resistor to a voltage, or a current source. */
export type Tail = { kind: 'resistor'; ohm: number; returnV: number } | { kind: 'current'; totalA: number };

interface AnySplitter {
  id: string;
  /** A pentode is taken with its screen at the plate. */
  device: string;
  /** Voltage of this stage's own supply; null: that of the amplifier's. */
  supplyV: number | null;
  grid: GridFeed;
  /** Grid leak of the next stage: at the only output, at a plate, at the driven plate. */
  nextGridLeakOhm: number | null;
  /** Grid leak at the other output; null: as the next one's. */
  otherGridLeakOhm: number | null;
}

/** One tube with its output at the cathode. */
export interface CathodeFollowerDescription extends AnySplitter {
  topology: 'cathode-follower';
  /** From the cathode, or from the bias resistor's lower end, to ground. */
  cathodeResistorOhm: number;
}

/** One tube with an output at the plate and one at the cathode. */
export interface SplitLoadDescription extends AnySplitter {
  topology: 'split-load';
  plateResistorOhm: number;
  /** From the cathode, or from the bias resistor's lower end, to ground. */
  cathodeResistorOhm: number;
}

/** Two tubes with joined cathodes, an output at each plate; the other grid is grounded for signals. */
export interface LongTailedDescription extends AnySplitter {
  topology: 'long-tailed';
  plateResistorOhm: number;
  otherPlateResistorOhm: number;
  tail: Tail;
}

export type SplitterDescription = CathodeFollowerDescription | SplitLoadDescription | LongTailedDescription;

/** Where a stage gives its signal. */
export type OutputName = 'plate' | 'cathode' | 'driven plate' | 'other plate';

export interface StageOutput {
  name: OutputName;
  inverting: boolean;
  /** Small-signal voltage gain into the load, without sign. */
  gain: number;
  /** For signals: the resistor at this output with the next grid leak across it. */
  loadOhm: number;
  /** At this output with the other left as it is; without the grid leak of this side. */
  outputOhm: number;
  /** Of each side where both are loaded alike; null where that has no single answer. */
  togetherOhm: number | null;
  /** At the largest undisturbed drive; null without one. */
  largestVrms: number | null;
  /** Orders 2 to 7 at that drive; empty without one. */
  harmonics: Harmonic[];
  thdRatio: number | null;
}

/** The largest undisturbed drive, peak, and what ends it. */
export interface SplitterDrive {
  driveV: number;
  limitedBy: Exclude<SwingLimit, 'drive'>;
}

/** The two outputs against each other, for small signals. */
export interface Balance {
  /** Second output over the first. */
  ratio: number;
  db: number;
  /** The resistor at `adjusted` that makes the two equal, with the slopes of this point of rest; null where none does. */
  equalOhm: number | null;
  adjusted: OutputName;
}

/** A tube of the stage at rest, to its cathode. */
export interface NamedPoint extends OperatingPoint {
  name: string;
}

export interface SplitterSheet extends AnyStageSheet {
  topology: SplitterDescription['topology'];
  device: string;
  modelSource: string | null;
  /** One for each tube. */
  points: NamedPoint[];
  /** Cathode to ground at rest. */
  cathodeV: number | null;
  outputs: StageOutput[];
  drive: SplitterDrive | null;
  /** Null for one output. */
  balance: Balance | null;
}
