/** What stands behind a stage's tube: data of its type, traced curves, measured and typed values. All SI. */

import type { Connection, Device, Electrodes, Ratings, ValueStatus } from '../types.ts';

export interface HeaterRating {
  voltage: number;
  current: number;
  source: string;
  status: ValueStatus;
}

/** A row of a data sheet's typical operation; of a push-pull pair the currents are those of both tubes. */
export interface TypicalOperation {
  use: 'single-ended class A' | 'push-pull class AB1';
  plateV: number;
  screenV: number | null;
  /** Null with a cathode resistor. */
  gridV: number | null;
  cathodeOhm?: number;
  /** At rest. */
  plateA: number;
  screenA: number | null;
  fullDrivePlateA?: number;
  /** Plate to plate for a pair. */
  loadOhm: number;
  powerW: number;
  distortionRatio: number;
  source: string;
  status: ValueStatus;
}

/** Currents of a tube's own electrodes, and the voltage its screen really has. */
export interface ElectrodeCurrents {
  plateA: number;
  screenA: number;
  screenV: number;
}

/** Which tube a stage has and how it is connected; of a push-pull stage, that of each side. */
export interface DeviceChoice {
  /** A type by name; with traced curves it is looked up for its ratings only. */
  device: string;
  connection: Connection;
  /** Screen to cathode at rest; null in distributed load: as the plate. */
  screenV: number | null;
  /** Share of the primary's turns between supply and screen tap, in distributed load. */
  tapRatio?: number | null;
  /** Tubes in parallel; null or left out: one. Currents of a description are those of each. */
  count?: number | null;
  /** Traced plate curves, used in place of the model. */
  curves?: TracedFamily | null;
}

/** A tube ready for use in a stage: all of its parallel tubes together, as connected. */
export interface StageDevice {
  rated: RatedTube;
  count: number;
  /** Null where the current comes from traced curves. */
  modelSource: string | null;
  curves: TracedFamily | null;
  /** True where the screen is not at the plate. */
  separateScreen: boolean;
  /** For finding the point of rest. */
  resting: Device;
  /** For signals about a point of rest. */
  around(rest: Pick<Electrodes, 'plateV' | 'screenV'>): Device;
  /** Screen voltage at rest where the plate's is known. */
  screenAt(plateV: number): number;
}

/** A type as far as its ratings go; empty ratings for a type that is not in the data. */
export interface RatedTube {
  type: string;
  construction: 'triode' | 'pentode';
  ratings: Ratings;
}

/** What a maker measured at rest, each tube on its own; null: not measured. */
export interface MeasuredPoint {
  plateA: number;
  /** Cathode above the grid's return: the grid is this far below the cathode. */
  cathodeV: number | null;
  /** Plate to cathode. */
  plateV: number | null;
  /** Whether the model is to be multiplied by measured over modelled current. */
  rescale: boolean;
}

/** A measured current beside that of the model at the same voltages, each tube on its own. */
export interface MeasuredComparison {
  plateA: number;
  modelA: number;
  /** Measured over modelled. */
  factor: number;
  /** Whether the stage's figures are those of the model times the factor. */
  rescaled: boolean;
  at: { plateV: number; gridV: number };
}

/** One traced curve: points by rising plate voltage, each voltage once. */
export interface TracedCurve {
  gridV: number;
  plateV: readonly number[];
  plateA: readonly number[];
  /** Null where the screen current was not traced. */
  screenA: readonly number[] | null;
}

/** Curves of one specimen at one screen voltage, by rising grid voltage; two at least, of two points at least. */
export interface TracedFamily {
  /** Where it comes from: the file's name. */
  name: string;
  curves: readonly TracedCurve[];
}

/** The model of a type against traced curves of a specimen; differences are model less trace, over trace. */
export interface ModelFit {
  /** Points compared. */
  points: number;
  rmsRatio: number;
  largestRatio: number;
  largestAt: { plateV: number; gridV: number };
  /** Factor on the model's current that fits best. */
  currentFactor: number;
  rmsRatioWithFactor: number;
}

/** Two of the three at least; the third is computed. */
export interface TypedSmallSignal {
  mu: number | null;
  plateResistanceOhm: number | null;
  transconductanceS: number | null;
}
