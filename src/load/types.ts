/** All values SI: volts, amperes, ohms, watts, farads, hertz. */

import type {
  DeviceChoice,
  ElectrodeCurrents,
  HeaterRating,
  MeasuredPoint,
  TypedSmallSignal,
  TypicalOperation,
} from './device/device-types.ts';
import type { FollowerDescription } from './follower/follower-types.ts';
import type { OfferedLoad, OutputDescription } from './output/output-types.ts';
import type { PushPullDescription } from './push-pull/push-pull-types.ts';
import type { SplitterDescription } from './splitter/splitter-types.ts';
import type { SupplyDescription } from './supply/supply-types.ts';

export type * from './chain/chain-types.ts';
export type * from './chain/coupling-types.ts';
export type * from './device/device-types.ts';
export type * from './follower/follower-types.ts';
export type * from './output/output-types.ts';
export type * from './push-pull/push-pull-types.ts';
export type * from './sheet-types.ts';
export type * from './splitter/splitter-types.ts';
export type * from './supply/supply-types.ts';

/** Parameters of Koren's plate-current equations; kG2 only for pentodes and beam tetrodes. */
export interface KorenParameters {
  mu: number;
  ex: number;
  kG1: number;
  kG2?: number;
  kP: number;
  kVB: number;
}

/** seen: read in the source; secondary: seen as another text's quotation; memory: not re-read. */
export type ValueStatus = 'seen' | 'secondary' | 'memory';

export interface Rating {
  value: number;
  source: string;
  status: ValueStatus;
}

/** Maximum ratings; one that is not known is left out. */
export interface Ratings {
  plateDissipation?: Rating;
  screenDissipation?: Rating;
  plateVoltage?: Rating;
  screenVoltage?: Rating;
  cathodeCurrent?: Rating;
  /** Where a sheet allows less current with fixed bias than with a cathode resistor. */
  cathodeCurrentFixedBias?: Rating;
  gridLeakFixedBias?: Rating;
  gridLeakCathodeBias?: Rating;
}

/** One tube type of shared/tubes: model parameters and maximum ratings, each with its source. */
export interface TubeType {
  type: string;
  /** A beam tetrode counts as a pentode. */
  construction: 'triode' | 'pentode';
  model: KorenParameters;
  modelSource: string;
  modelStatus: ValueStatus;
  ratings: Ratings;
  heater?: HeaterRating;
  typicalOperation?: TypicalOperation[];
}

/** Tube types by the name a person writes in `device`. */
export type TubeLibrary = Readonly<Record<string, TubeType>>;

export type Connection = 'triode' | 'pentode' | 'distributed-load';

/** Electrode voltages to the cathode; the screen's is not looked at where there is none of its own. */
export interface Electrodes {
  plateV: number;
  screenV: number;
  gridV: number;
}

/**
 * What a tube draws at given electrode voltages, in amperes. The plate current is what the plate load
 * carries; the screen current is what a screen takes past the load.
 */
export interface Device {
  plateCurrent(at: Electrodes): number;
  screenCurrent(at: Electrodes): number;
  /** Where the connection mixes the electrodes: what each of them carries. */
  inside?(at: Electrodes): ElectrodeCurrents;
  /** Where the device is known in a region only: volts to the nearest border, negative outside. */
  margin?(at: Electrodes): number;
}

export type Bias =
  | { kind: 'grid'; gridV: number }
  | { kind: 'cathode-resistor'; ohm: number; bypassed: boolean }
  | { kind: 'current'; plateA: number };

/** One stage as described by a person, in SI units; `topology` tells the kinds apart. */
export type StageDescription =
  | TubeStageDescription
  | PushPullDescription
  | FollowerDescription
  | SplitterDescription;

/** A tube with a load at its plate. */
export interface TubeStageDescription extends DeviceChoice {
  id: string;
  topology: 'single-ended' | 'resistance-coupled';
  /** Plate to cathode at rest; null: solved from the supply. */
  plateV: number | null;
  /** Voltage of this stage's own supply; null or left out: that of the amplifier's. */
  supplyV?: number | null;
  bias: Bias;
  /** Direct-current resistance between supply and plate: plate resistor, or the primary winding's. */
  plateResistorOhm: number | null;
  nextGridLeakOhm: number | null;
  /** Of the stage itself. */
  gridLeakOhm?: number | null;
  /** Between supply and screen, bypassed; null or left out: the screen voltage is stated. */
  screenResistorOhm?: number | null;
  /** Between plate and next grid leak. */
  couplingCapacitorF?: number | null;
  /** Across the cathode resistor; null or left out: large enough for any frequency. */
  bypassCapacitorF?: number | null;
  /** Load seen by the plate for signals; null for a stage whose load is its plate resistor. */
  loadOhm: number | null;
  /** Peak grid swing; null: up to zero grid voltage, cut-off or saturation. */
  driveV: number | null;
  measured?: MeasuredPoint | null;
  /** The load of least distortion is wanted at this power; null or left out: not. */
  statedPowerW?: number | null;
  /** The load of most power is wanted at this total distortion; null or left out: not. */
  statedDistortionRatio?: number | null;
  /** The loads that transformers at hand make. */
  offers?: readonly OfferedLoad[];
  /** Output transformer and loudspeaker in place of a stated load; null or left out: none. */
  output?: OutputDescription | null;
  /** Values typed in place of a model; the stage then has small-signal figures only. */
  smallSignal?: TypedSmallSignal | null;
}

/** What a stage is computed from besides its own description. */
export interface StageContext {
  /** The amplifier's own supply; null where none is described, or where it has faults. */
  supply: SupplyDescription | null;
  tubes: TubeLibrary;
  /** Loads in the sweep of a pair; left out: 33. */
  sweepPoints?: number | undefined;
}

/** A point of rest: electrode voltages to the cathode, and currents of plate load and separate screen. */
export interface Rest extends Electrodes {
  plateA: number;
  screenA: number;
}

/** A stage at rest with everything its signal behaviour depends on, apart from the load. */
export interface RestingStage {
  device: Device;
  rest: Rest;
  /** Direct-current resistance between supply and plate. */
  feedOhm: number;
  cathode: { ohm: number; bypassed: boolean } | null;
}
