/** All values SI: volts, amperes, ohms, watts, farads, hertz. */

/** Parameters of Koren's plate-current equations; kG2 only for pentodes and beam tetrodes. */
export interface KorenParameters {
  mu: number;
  ex: number;
  kG1: number;
  kG2?: number;
  kP: number;
  kVB: number;
}

export interface Rating {
  value: number;
  source: string;
  /** seen: read in the source; secondary: seen as another text's quotation; memory: not re-read. */
  status: 'seen' | 'secondary' | 'memory';
}

/** One tube type of shared/tubes: model parameters and maximum ratings, each with its source. */
export interface TubeType {
  type: string;
  construction: 'triode' | 'pentode';
  model: KorenParameters;
  modelSource: string;
  ratings: {
    plateDissipation?: Rating;
    screenDissipation?: Rating;
    plateVoltage?: Rating;
    screenVoltage?: Rating;
    cathodeCurrent?: Rating;
  };
}

export type Bias =
  | { kind: 'grid'; gridV: number }
  | { kind: 'cathode-resistor'; ohm: number; bypassed: boolean }
  | { kind: 'current'; plateA: number };

/** One tube stage as described by a person, in SI units. */
export interface StageDescription {
  id: string;
  topology: 'single-ended' | 'resistance-coupled';
  device: string;
  connection: 'triode' | 'pentode';
  /** Plate to cathode at rest; null: solved from the supply. */
  plateV: number | null;
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
}

export interface SupplyDescription {
  plateV: number | null;
  currentA: number | null;
  sourceResistanceOhm: number | null;
  mainsHz: number | null;
  /** Off-load peak voltage where the maker states it; otherwise estimated and said so. */
  offLoadV: number | null;
  capacitors: ReservoirCapacitor[];
}
