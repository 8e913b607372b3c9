/** Push-pull stages. All values SI: volts, amperes, ohms, watts. */

import type { DeviceChoice } from '../device/device-types.ts';
import type { OfferedLoad, OutputDescription, OutputSheet } from '../output/output-types.ts';
import type {
  AnyStageSheet,
  Candidate,
  Harmonic,
  OperatingPoint,
  PowerBalance,
  SweepRow,
  SwingLimit,
} from '../sheet-types.ts';
import type { Bias, Connection } from '../types.ts';

/** Two like sides on a centre-tapped transformer; a tap divides the turns of its own half. */
export interface PushPullDescription extends DeviceChoice {
  id: string;
  topology: 'push-pull';
  /** Plate to cathode at rest; null: solved from the supply. */
  plateV: number | null;
  /** Voltage of this stage's own supply; null: that of the amplifier's. */
  supplyV: number | null;
  /** A cathode resistor is common to all tubes; a current is that of each tube. */
  bias: Bias;
  /** Direct-current resistance of each half of the primary. */
  windingOhm: number | null;
  /** Plate to plate; null where an output transformer makes it. */
  loadOhm: number | null;
  /** Output transformer and loudspeaker in place of a stated load; null or left out: none. */
  output?: OutputDescription | null;
  /** Peak swing of each grid; null: up to zero grid voltage or saturation. */
  driveV: number | null;
  /** The load of least distortion is wanted at this power; null: not. */
  powerW: number | null;
  /** The load of most power is wanted at this total distortion; null or left out: not. */
  statedDistortionRatio?: number | null;
  /** The loads that transformers at hand make. */
  offers?: readonly OfferedLoad[];
  /** By how much of their mean the currents of the two sides differ. */
  mismatchRatio: number;
}

/** How the sides share the cycle at a drive. */
export type AmplifierClass = 'A' | 'AB' | 'B';

/** A pair driven by a sine into a resistive load. */
export interface PushPullAtLoad {
  /** Plate to plate. */
  loadOhm: number;
  /** Load of one side while both conduct: half of it. */
  bothConductOhm: number;
  /** Load of one side while the other is cut off: a quarter of it. */
  oneConductsOhm: number;
  /** Peak, at each grid. */
  driveV: number;
  limitedBy: SwingLimit;
  class: AmplifierClass;
  /** Share of the cycle in which the side that is cut off for longer is cut off. */
  cutOffShare: number;
  /** Up to this power no side is cut off. */
  classAPowerW: number;
  /** Into the load at the fundamental. */
  powerW: number;
  /** Of the voltage at the load, orders 2 to 7. */
  harmonics: Harmonic[];
  thdRatio: number;
  efficiency: number;
  /** Plate to plate. */
  outputVrms: number;
  /** Fundamental across each half of the primary. */
  halfPeakV: number;
  /** Both sides. */
  averagePlateA: number;
  /** Both sides; null without a separately fed screen. */
  averageScreenA: number | null;
  /** Mean current of the first side less that of the second: it magnetises the core. */
  unbalanceA: number;
  /** Rise of the cathodes over their voltage at rest. */
  cathodeRiseV: number;
  /** Of the larger side. */
  peakPlateA: number;
  peakPlateV: number;
  leastPlateV: number;
  /** Each tube of the warmer side. */
  tubePlateW: number;
  balance: PowerBalance;
}

/** The pair at one drive. */
export interface DriveRow {
  driveV: number;
  powerW: number;
  thdRatio: number;
  efficiency: number;
  /** Both sides. */
  averagePlateA: number;
  /** Each tube of the warmer side. */
  tubePlateW: number;
  cutOffShare: number;
}

export interface PushPullSheet extends AnyStageSheet {
  topology: 'push-pull';
  device: string;
  connection: Connection;
  /** Tubes on each side. */
  count: number;
  /** File of the traced curves in place of a model. */
  curvesFrom: string | null;
  modelSource: string | null;
  /** Of one tube. */
  operatingPoint: OperatingPoint | null;
  /** Only with an output transformer. */
  output?: OutputSheet;
  atLoad: PushPullAtLoad | null;
  /** From a small drive to that of `atLoad`. */
  byDrive: DriveRow[];
  /** The drive at which a tube's plate dissipates most. */
  warmest: { driveV: number; powerW: number; tubePlateW: number } | null;
  candidates: Candidate[];
  sweep: SweepRow[];
}

/** What the charts of a pair draw. */
export interface PushPullDiagram {
  /** Plate voltage of the first side at rest, no combined current. */
  restV: number;
  /** At some grid swings: current of the first side less that of the second, by plate voltage of the first. */
  combined: { inputV: number; plateV: number[]; plateA: number[] }[];
  /** The first side and, turned over, the second, at no grid swing. */
  sides: { plateV: number[]; plateA: number[] }[];
  /** Path of the combined current over a cycle. */
  path: { plateV: number; plateA: number }[];
  /** One cycle in degrees from the crest of the first grid's swing. */
  cycle: { degrees: number[]; firstA: number[]; secondA: number[] };
}
