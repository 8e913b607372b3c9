/** All values SI: volts, amperes, ohms, watts, farads, hertz. */

export type * from './sheet-types.ts';

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
}

/** Tube types by the name a person writes in `device`. */
export type TubeLibrary = Readonly<Record<string, TubeType>>;

export type Connection = 'triode' | 'pentode';

/** Electrode voltages to the cathode; the screen's is not looked at where there is none of its own. */
export interface Electrodes {
  plateV: number;
  screenV: number;
  gridV: number;
}

/**
 * What a tube draws at given electrode voltages, in amperes. The plate current is what the plate load
 * carries; the screen current is what a separately fed screen takes.
 */
export interface Device {
  plateCurrent(at: Electrodes): number;
  screenCurrent(at: Electrodes): number;
}

export type Bias =
  | { kind: 'grid'; gridV: number }
  | { kind: 'cathode-resistor'; ohm: number; bypassed: boolean }
  | { kind: 'current'; plateA: number };

/** One stage as described by a person, in SI units; `topology` tells the kinds apart. */
export type StageDescription = TubeStageDescription;

/** A tube with a load at its plate. */
export interface TubeStageDescription {
  id: string;
  topology: 'single-ended' | 'resistance-coupled';
  device: string;
  connection: Connection;
  /** Plate to cathode at rest; null: solved from the supply. */
  plateV: number | null;
  /** Voltage of this stage's own supply; null or left out: that of the amplifier's. */
  supplyV?: number | null;
  /** Screen to cathode at rest. */
  screenV: number | null;
  bias: Bias;
  /** Direct-current resistance between supply and plate: plate resistor, or the primary winding's. */
  plateResistorOhm: number | null;
  nextGridLeakOhm: number | null;
  /** Load seen by the plate for signals; null for a stage whose load is its plate resistor. */
  loadOhm: number | null;
  /** Peak grid swing; null: up to zero grid voltage, cut-off or saturation. */
  driveV: number | null;
}

export interface ReservoirCapacitor {
  capacitanceF: number;
  ratedV: number | null;
  workingV: number | null;
  bleederOhm: number | null;
  /** Resistance between the capacitor before and this one; null or left out: none, or a choke. */
  seriesOhm?: number | null;
}

/** A supply; its capacitors in order from the rectifier, those of the filter included. */
export interface SupplyDescription {
  plateV: number | null;
  currentA: number | null;
  sourceResistanceOhm: number | null;
  mainsHz: number | null;
  /** Off-load peak voltage where the maker states it; otherwise estimated and said so. */
  offLoadV: number | null;
  capacitors: ReservoirCapacitor[];
}

/** What a stage is computed from besides its own description. */
export interface StageContext {
  /** The amplifier's own supply; null where none is described, or where it has faults. */
  supply: SupplyDescription | null;
  tubes: TubeLibrary;
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
