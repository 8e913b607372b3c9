/** Transistor output stages. All values SI; temperatures in °C, thermal resistances in K/W. */

import type { AnyStageSheet } from '../sheet-types.ts';

/** A follower with a current source or a resistor below it, or a complementary pair of followers. */
export interface FollowerDescription {
  id: string;
  topology: 'follower' | 'follower-pair';
  /** Each rail of a split supply, or the whole of a single one; null: that of the amplifier's supply. */
  railV: number | null;
  /** Between output and load on a single supply; null on a split one. */
  outputCapacitorF: number | null;
  loadOhm: number;
  /** In each transistor; 0 for none. */
  emitterOhm: number;
  /** In each transistor at rest; null where a sink resistor sets it. */
  biasA: number | null;
  /** From the output of a follower to the other rail; null with a current source, and in a pair. */
  sinkOhm: number | null;
  /** Transistors in parallel, in a pair on each side. */
  count: number;
  /** What the rail loses at the crest: saturation, junctions and driver, without the emitter resistor. */
  lossV: number;
  /** Figures are wanted at this output as well. */
  powerW: number | null;
  thermal: ThermalPath | null;
  ratings: TransistorRatings | null;
}

/** The way of the heat from the junction to the air. */
export interface ThermalPath {
  /** Null: derived from the rated power and the highest junction temperature. */
  junctionToCase: number | null;
  caseToSink: number;
  sinkToAmbient: number;
  ambientC: number;
  maxJunctionC: number;
  /** Transistors of the stage on one sink; null: all of them. */
  devices: number | null;
  /** Heat of other parts on the same sink. */
  otherW: number;
}

/** Maximum ratings of one transistor as its maker states them; null where not stated. */
export interface TransistorRatings {
  voltageV: number | null;
  currentA: number | null;
  /** At a case of 25 °C. */
  powerW: number | null;
  source: string;
}

/** A load: modulus of its impedance, and the angle by which the current lags or leads. */
export interface FollowerLoad {
  ohm: number;
  angleDeg: number;
}

/** Where the power from the rails goes, averaged over a cycle. */
export interface FollowerBalance {
  supplyW: number;
  loadW: number;
  /** All upper transistors. */
  upperW: number;
  /** All lower transistors of a pair, or the current source or resistor of a follower. */
  lowerW: number;
  emitterW: number;
}

/** The stage with a sine of one size at its output. */
export interface FollowerState {
  outputPeakV: number;
  outputW: number;
  /** From the output at rest to the rail, sag included; half the voltage of a single supply. */
  railV: number;
  /** Drawn from each rail on average. */
  averageA: number;
  efficiency: number;
  /** Of each transistor, averaged over the cycle. */
  deviceW: number;
  peakDeviceW: number;
  peakDeviceA: number;
  balance: FollowerBalance;
}

/** Steady temperatures of one transistor and the sink it shares. */
export interface Temperatures {
  junctionC: number;
  caseC: number;
  sinkC: number;
}

export interface ThermalSheet {
  junctionToCase: number;
  junctionToCaseBasis: 'stated' | 'from the rated power';
  maxJunctionC: number;
  ambientC: number;
  /** Transistors that share the sink. */
  devices: number;
  rest: Temperatures;
  worst: Temperatures;
  largest: Temperatures;
  /** Dissipation of each transistor at which the junction is at its stated maximum; 0 where none is left. */
  mostDeviceW: number;
  /** Sink that keeps the junction at its stated maximum at the worst output; null where none can. */
  requiredSink: number | null;
}

/** What one load makes of the stage. */
export interface FollowerLoadRow extends FollowerLoad {
  largestW: number;
  /** Largest average dissipation of each transistor over all outputs, and the output where it occurs. */
  worstDeviceW: number;
  worstAtW: number;
  junctionC: number | null;
  requiredSink: number | null;
}

/** Largest average dissipation of each transistor with one load. */
export interface FollowerSweepRow {
  loadOhm: number;
  largestW: number;
  resistiveW: number;
  /** With 45° between voltage and current. */
  reactiveW: number;
}

export interface FollowerSheet extends AnyStageSheet {
  topology: FollowerDescription['topology'];
  supplyKind: 'split' | 'single';
  count: number;
  loadOhm: number | null;
  rest: FollowerState | null;
  /** The largest sine before clipping. */
  largest: FollowerState | null;
  limitedBy: 'supply' | 'cut-off' | null;
  /** The output at which each transistor dissipates most. */
  worst: FollowerState | null;
  /** At the power that the description asks for. */
  stated: FollowerState | null;
  /** In each transistor at rest. */
  biasA: number | null;
  /** Up to here no transistor stops conducting. */
  classAW: number | null;
  /** Across the emitter resistors of one transistor, or of two opposite ones of a pair, at rest. */
  biasReadingV: number | null;
  /** Of output capacitor and load. */
  lowCornerHz: number | null;
  thermal: ThermalSheet | null;
  loads: FollowerLoadRow[];
  byOutput: FollowerState[];
  byLoad: FollowerSweepRow[];
}
