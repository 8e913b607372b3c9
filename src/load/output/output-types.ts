/** An output transformer, the loudspeaker on it, and what they make of a stage. All values SI. */

/** An output transformer as its maker states it; null: not stated. Values are those of the whole primary. */
export interface OutputTransformer {
  name: string;
  /** Primary over the secondary in use. */
  turnsRatio: number;
  /** The load that the secondary in use is made for. */
  nominalOhm: number | null;
  primaryOhm: number | null;
  /** Of the secondary in use. */
  secondaryOhm: number | null;
  /** Secondary open. */
  primaryH: number | null;
  /** Secondary shorted. */
  leakageH: number | null;
  ratedPower: { watt: number; frequencyHz: number } | null;
  ratedDirectA: number | null;
}

/** Impedance of a loudspeaker by ascending frequency; without phase its modulus is taken as a resistance. */
export interface SpeakerSweep {
  name: string;
  frequencyHz: readonly number[];
  ohm: readonly number[];
  phaseDeg: readonly number[] | null;
}

/** What stands between a plate and the air. */
export interface OutputDescription {
  transformer: OutputTransformer;
  /** Share of the primary's turns in use: 1 for all. */
  primaryShare: number;
  /** The resistor, or the rated impedance of the loudspeaker. */
  speakerOhm: number;
  sweep: SpeakerSweep | null;
}

/** A transformer of the journal with the load that it would make for a stage. */
export interface OfferedLoad {
  /** Id of its record. */
  part: string;
  /** Its title, with the tap where it has several. */
  name: string;
  /** Which impedance of a measured loudspeaker is meant; null for a resistor or a rated load. */
  onto: 'least' | '1 kHz' | null;
  turnsRatio: number;
  /** Null where neither a loudspeaker nor the load that it is made for is known. */
  speakerOhm: number | null;
  /** At the plate, or from plate to plate, with the windings; null without a loudspeaker. */
  loadOhm: number | null;
  /** Direct current in the primary that it is rated for; null: not stated. */
  ratedDirectA: number | null;
  /** True where the record does not tell whether it is for single-ended stages or for pairs. */
  unknownUse: boolean;
}

/** A frequency at which the response has fallen by `lossDb` from its middle. */
export interface Corner {
  lossDb: number;
  frequencyHz: number;
}

/** What the iron leaves for a sine beside the direct current. */
export interface CoreSheet {
  /** Share of the largest flux that the direct current takes. */
  directShare: number;
  ratedHz: number;
  /** Into the loudspeaker at the frequency of the rating. */
  powerAtRatedHzW: number;
  /** Lowest frequency of the stage's full power. */
  fullPowerHz: number;
}

export interface OutputSheet {
  transformer: string;
  primaryShare: number;
  /** Turns in use. */
  turnsRatio: number;
  speakerOhm: number;
  /** The loudspeaker alone, as seen from the primary. */
  reflectedOhm: number;
  /** With the windings' resistances: the load at the plate. */
  loadOhm: number;
  /** Power in the loudspeaker over power into the transformer; null where a winding's resistance is not stated. */
  efficiency: number | null;
  lossDb: number | null;
  /** Full power in the loudspeaker. */
  speakerW: number | null;
  /** Seen by the loudspeaker. */
  outputOhm: number | null;
  low: Corner[];
  high: Corner[];
  core: CoreSheet | null;
  realLoad: RealLoad | null;
}

/** A stage at one frequency of a load that is no resistor. */
export interface LoadAtFrequency {
  frequencyHz: number;
  /** Modulus and phase at the plate. */
  loadOhm: number;
  phaseDeg: number;
  /** Into the loudspeaker at the fundamental. */
  speakerW: number;
  /** Of the loudspeaker's voltage. */
  secondRatio: number;
  thirdRatio: number;
  thdRatio: number;
  leastPlateV: number;
  peakPlateV: number;
  leastPlateA: number;
}

/** Full drive into the real load over frequency. */
export interface RealLoad {
  /** Name of the sweep; null for a resistor. */
  speaker: string | null;
  withPhase: boolean;
  /** The drive of full power into the rated load. */
  driveV: number;
  rows: LoadAtFrequency[];
  /** The row of most distortion. */
  worst: LoadAtFrequency;
  /** Plate voltage and current over a cycle at the worst frequency. */
  path: { plateV: number; plateA: number }[];
  /** Frequencies without a solution. */
  unsolvedHz: number[];
}
