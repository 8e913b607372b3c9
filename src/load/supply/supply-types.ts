/** A supply as described, and its figures. All values SI: volts, amperes, ohms, farads, henries, joules, seconds. */

import type { Absent } from '../sheet-types.ts';
import type { ValueStatus } from '../types.ts';

export type Rectifier = 'full-wave' | 'half-wave' | 'bridge';

/** A capacitor of a supply with what joins it to the one before it. */
export interface ReservoirCapacitor {
  capacitanceF: number;
  ratedV: number | null;
  workingV: number | null;
  bleederOhm: number | null;
  /** Power rating of the bleeder; null or left out: not stated. */
  bleederRatedW?: number | null;
  /** Which kind of filter section ends in this capacitor; null or left out: it is at the reservoir. */
  section?: 'RC' | 'LC' | null;
  /** Resistance between the capacitor before and this one, that of a choke included; null or left out: none. */
  seriesOhm?: number | null;
  /** Choke between the capacitor before and this one; null or left out: none. */
  seriesH?: number | null;
  /** Direct current through the section; null or left out: all that the supply gives. */
  sectionA?: number | null;
  /** Ids of the stages that draw their plate current here; none anywhere: all from the last capacitor. */
  feeds?: readonly string[];
}

/** Tubes of one kind on a heater winding. */
export interface HeaterLoad {
  device: string;
  count: number;
  /** Each, at the winding's voltage; null: from the data of its type. */
  currentA: number | null;
}

export interface HeaterWinding {
  name: string;
  voltageV: number;
  ratedA: number | null;
  feeds: readonly HeaterLoad[];
}

/** A supply; its capacitors in order from the rectifier, those of the filter included. */
export interface SupplyDescription {
  /** Under `currentA`; of a split supply that of one rail. */
  plateV: number | null;
  currentA: number | null;
  sourceResistanceOhm: number | null;
  mainsHz: number | null;
  /** Off-load peak voltage where the maker states it; otherwise estimated and said so. */
  offLoadV: number | null;
  capacitors: ReservoirCapacitor[];
  /** Left out: full-wave. */
  rectifier?: Rectifier;
  /** True where `plateV` is that of one rail of two, each with a reservoir capacitor of its own. */
  splitRails?: boolean;
  /** How many like sets of the stages it feeds; left out: one. */
  channels?: number;
  heaters?: readonly HeaterWinding[];
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

/** The supply behind one filter section, or at the reservoir. */
export interface RipplePoint {
  /** `reservoir`, `section 1`, … */
  name: string;
  kind: 'reservoir' | 'RC' | 'LC';
  rippleVrms: number;
  /** Against the point before; null at the reservoir. */
  attenuationDb: number | null;
  /** Direct current through the section and what its resistance drops; null where not known. */
  sectionA: number | null;
  dropV: number | null;
  /** Of an LC section; its peak is over the level at low frequencies, null without series resistance. */
  resonanceHz: number | null;
  peakDb: number | null;
}

/** Ripple from the rectifier on, taken as a sine of the ripple frequency behind the reservoir. */
export interface RippleSheet {
  rectifier: Rectifier;
  frequencyHz: number;
  /** Across the reservoir. */
  peakToPeakV: number;
  /** How far the mean stands below the crests: half the peak-to-peak ripple. */
  belowCrestV: number;
  points: RipplePoint[];
}

/** One resistor that would bring the supply to 60 V in 5 s, and its power at the highest voltage. */
export interface BleederNeeded {
  ohm: number;
  watt: number;
  /** With the capacitance 20 % above nominal. */
  atToleranceOhm: number;
  atToleranceW: number;
}

/** A bleeder at the highest voltage. */
export interface BleederPower {
  ohm: number;
  watt: number;
  ratedW: number | null;
  share: number | null;
}

export interface HeaterRow {
  device: string;
  count: number;
  /** All of them, at the winding's voltage; null where not known. */
  currentA: number | null;
  source: string | null;
  absent?: string;
}

export interface HeaterSheet {
  name: string;
  voltageV: number;
  rows: HeaterRow[];
  /** Null where one of the currents is not known. */
  totalA: number | null;
  ratedA: number | null;
  share: number | null;
}

/** What one stage draws, all channels together; at full drive as a mean of the cycle. */
export interface DrawnRow {
  /** Id of the stage; null for the bleeders. */
  stage: string | null;
  restA: number;
  /** Null where full drive is not known. */
  fullA: number | null;
}

/** The output stage once more, with the supply that its own current at full drive leaves. */
export interface SagRow {
  stage: string;
  /** Fall of the supply from rest to full drive; negative where less is drawn. */
  fallV: number;
  powerW: number;
  saggedPowerW: number;
}

export interface CurrentDrawn {
  rows: DrawnRow[];
  restA: number;
  fullA: number | null;
  statedA: number | null;
  /** Drawn at rest less stated, over stated. */
  differenceRatio: number | null;
  /** Stages whose current is not known. */
  unknown: string[];
  /** Supply at rest and at full drive, from the stated voltage and current; null without source resistance. */
  restV: number | null;
  fullV: number | null;
  sag: SagRow[];
}

/** Hum that the supply's ripple makes at the output of a stage, without feedback. */
export interface HumRow {
  stage: string;
  /** At the point that feeds the stage. */
  rippleVrms: number;
  /** Across the load at the plate, or from plate to plate. */
  loadVrms: number | null;
  /** Power in the rated load over 1 W; null where not known, or where nothing is left. */
  dbReWatt: number | null;
  absent?: string;
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
  /** Across the reservoir. */
  rippleVrms: number | null;
  ripple: RippleSheet | null;
  bleederNeeded: BleederNeeded | null;
  bleeders: BleederPower[];
  heaters: HeaterSheet[];
  /** Null without stages that draw from the supply. */
  drawn: CurrentDrawn | null;
  /** Of the output stages. */
  hum: HumRow[];
  capacitors: CapacitorSheet[];
  thresholds: Threshold[];
  explanation: string[];
  absent: Absent;
}
