/** The figures of a load sheet. All values SI: volts, amperes, ohms, watts, farads, seconds. */

import type { Fault } from '../problem/index.ts';
import type { Connection, Electrodes, TubeStageDescription, ValueStatus } from './types.ts';

/** Derivatives at a point of rest; rp and mu are null where the plate voltage has no influence. */
export interface SmallSignal {
  gmS: number;
  rpOhm: number | null;
  mu: number | null;
}

export interface OperatingPoint extends SmallSignal {
  plateV: number;
  plateA: number;
  gridV: number;
  /** Null where the screen is absent or strapped to the plate. */
  screenV: number | null;
  screenA: number | null;
}

/** One rating against its value at rest; without a known rating the last five are null and `absent` says so. */
export interface LimitRow {
  name: string;
  value: number;
  unit: 'W' | 'V' | 'A';
  limit: number | null;
  share: number | null;
  source: string | null;
  status: ValueStatus | null;
  over: boolean | null;
  absent?: string;
}

/** What ends the swing: the drive as described, zero grid voltage, cut-off or saturation. */
export type SwingLimit = 'drive' | 'grid current' | 'cut-off' | 'saturation';

/** One harmonic of the plate current; the sign is against the fundamental at the crest of the grid swing. */
export interface Harmonic {
  order: number;
  ratio: number;
  sign: 1 | -1;
}

/** Currents and voltages (to the cathode) at one instant of the cycle. */
export interface Instant extends Electrodes {
  plateA: number;
  screenA: number;
  /** Rise of the cathode over its voltage at rest. */
  cathodeRiseV: number;
}

/** Where the power from the plate supply goes, averaged over a cycle. */
export interface PowerBalance {
  supplyW: number;
  /** All harmonics. */
  loadW: number;
  plateW: number;
  /** Direct current in winding or plate resistor. */
  feedW: number;
  /** Plate current's share in the cathode resistor. */
  cathodeW: number;
}

/** A stage driven by a sine into a resistive load. */
export interface AtLoad {
  loadOhm: number;
  /** Peak of the grid-circuit voltage. */
  driveV: number;
  limitedBy: SwingLimit;
  /** Into the load at the fundamental. */
  powerW: number;
  /** Orders 2 to 7. */
  harmonics: Harmonic[];
  /** Root sum square of orders 2 to 7 over the fundamental. */
  thdRatio: number;
  /** Power at the fundamental over the power from the plate supply at this drive. */
  efficiency: number;
  outputVrms: number;
  averagePlateA: number;
  /** Null without a separately fed screen. */
  averageScreenA: number | null;
  screenW: number | null;
  peakPlateA: number;
  leastPlateA: number;
  peakPlateV: number;
  leastPlateV: number;
  balance: PowerBalance;
  /** The same from five ordinates of the load line, as a hand calculation gives it. */
  byFiveOrdinates: { secondRatio: number; thirdRatio: number; fourthRatio: number } | null;
}

export interface SweepRow {
  loadOhm: number;
  powerW: number;
  secondRatio: number;
  thirdRatio: number;
  thdRatio: number;
  limitedBy: SwingLimit;
}

/** One rule for choosing the load, with what the model gives there. */
export interface Candidate {
  method: string;
  /** The method in a few characters, for a chart: "2 rp". */
  short: string;
  loadOhm: number | null;
  basis: string;
  source: string;
  status: 'published' | 'derived' | 'common practice';
  powerW: number | null;
  secondRatio: number | null;
  thirdRatio: number | null;
  thdRatio: number | null;
}

/** Small-signal voltage gain into the load, without sign; unbypassed only where there is a cathode resistor. */
export interface StageGain {
  bypassed: number;
  unbypassed: number | null;
}

/** Reasons of the figures that are null, by property name. */
export type Absent = Readonly<Record<string, string>>;

/** The figures of one stage; `topology` tells the kinds apart. */
export type StageSheet = TubeStageSheet;

/** What every stage's sheet has, whatever it is made of. */
interface AnyStageSheet {
  id: string;
  limits: LimitRow[];
  explanation: string[];
  absent: Absent;
}

export interface TubeStageSheet extends AnyStageSheet {
  topology: TubeStageDescription['topology'];
  device: string;
  connection: Connection;
  modelSource: string | null;
  operatingPoint: OperatingPoint | null;
  gain: StageGain | null;
  atLoad: AtLoad | null;
  candidates: Candidate[];
  sweep: SweepRow[];
}

export interface CapacitorSheet {
  capacitanceF: number;
  ratedV: number | null;
  /** Nominal capacitance at the highest voltage. */
  storedEnergyJ: number;
  /** Capacitance 20 % above nominal at the highest voltage. */
  storedEnergyAtToleranceJ: number;
}

/** A named limit of a standard and where the supply stands. */
export interface Threshold {
  name: string;
  /** Null for a time that never comes. */
  value: number | null;
  limit: number;
  unit: 'V' | 'J' | 's';
  above: boolean;
  source: string;
  status: ValueStatus;
}

/** Figures for nominal capacitance and bleeder unless the name says tolerance (capacitance 20 % above nominal). */
export interface SupplySheet {
  /** Off-load peak voltage with the mains 10 % high. */
  highestV: number | null;
  offLoadV: number | null;
  offLoadBasis: string | null;
  storedEnergyJ: number | null;
  storedEnergyAtToleranceJ: number | null;
  /** From the highest voltage; null without a bleeder. */
  timeTo60VoltsS: number | null;
  timeTo50VoltsS: number | null;
  timeTo60VoltsAtToleranceS: number | null;
  timeTo50VoltsAtToleranceS: number | null;
  /** Always null: without a working bleeder the supply does not discharge by itself. */
  timeTo60VoltsWithoutBleederS: null;
  /** Across the first capacitor, full-wave rectification. */
  rippleVrms: number | null;
  capacitors: CapacitorSheet[];
  thresholds: Threshold[];
  explanation: string[];
  absent: Absent;
}

/** A fault with the keys that lead to the value in the description. */
export interface LoadFault extends Fault {
  path: (string | number)[];
}

export interface LoadSheet {
  /**
   * Twice the plate supply with the mains 10 % high: what the plate of a transformer-coupled stage swings to at full
   * drive, on the cautious side. Null without such a stage or without a plate supply.
   */
  peakPlateV: number | null;
  stages: StageSheet[];
  supply: SupplySheet | null;
  problems: LoadFault[];
}
