/** The figures of a load sheet. All values SI: volts, amperes, ohms, watts, farads, seconds. */

import type { Fault } from '../problem/index.ts';
import type { ChainSheet } from './chain/chain-types.ts';
import type { Coupling } from './chain/coupling-types.ts';
import type { MeasuredComparison, ModelFit } from './device/device-types.ts';
import type { PlateDiagram } from './device/plate-curves.ts';
import type { FollowerSheet } from './follower/follower-types.ts';
import type { OutputSheet } from './output/output-types.ts';
import type { PushPullDiagram, PushPullSheet } from './push-pull/push-pull-types.ts';
import type { SplitterSheet } from './splitter/splitter-types.ts';
import type { SupplySheet } from './supply/supply-types.ts';
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

/** At rest, at full drive as a mean of the cycle, or at the drive that makes it largest. */
export type LimitMoment = 'at rest' | 'at full drive' | 'at its largest';

/** One rating against its value; without a known rating the last five are null and `absent` says so. */
export interface LimitRow {
  /** Left out where the name says it. */
  when?: LimitMoment;
  name: string;
  value: number;
  unit: 'W' | 'V' | 'A' | 'Ω' | '°C';
  limit: number | null;
  share: number | null;
  source: string | null;
  status: ValueStatus | null;
  over: boolean | null;
  absent?: string;
}

/** What ends the swing: the drive as described, zero grid voltage, cut-off, saturation or what was traced. */
export type SwingLimit = 'drive' | 'grid current' | 'cut-off' | 'saturation' | 'traced curves';

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

/** How far a rule's load goes when one condition of the stage is 10 % up. */
export interface RuleMove {
  ohm: number;
  /** Of the load here: 0.1 is a tenth more. */
  relative: number;
}

/** How far a rule moves with the point of rest, the bias following; null where it has no load there, which `absent` says. */
export interface RuleMoves {
  /** Plate and screen voltage 10 % up at the same current. */
  voltage: RuleMove | null;
  /** Current at rest 10 % up at the same voltages. */
  current: RuleMove | null;
  absent?: string;
}

/** One rule for choosing the load, or a transformer at hand, with what the model gives there. */
export interface Candidate {
  method: string;
  /** The method in a few characters, for a chart: "2 rp". */
  short: string;
  loadOhm: number | null;
  basis: string;
  source: string;
  status: 'published' | 'derived' | 'common practice';
  /** Id of the part record of a transformer; null for a rule. */
  part: string | null;
  powerW: number | null;
  secondRatio: number | null;
  thirdRatio: number | null;
  thdRatio: number | null;
  /** Power over the largest of the sweep. */
  fromMostPowerDb: number | null;
  /** Where the load stands to that of the largest power; null where the sweep does not hold it. */
  side: 'below' | 'at' | 'above' | null;
  moves: RuleMoves;
}

/** Small-signal voltage gain into the load, without sign; unbypassed only where there is a cathode resistor. */
export interface StageGain {
  bypassed: number;
  unbypassed: number | null;
}

/** Reasons of the figures that are null, by property name. */
export type Absent = Readonly<Record<string, string>>;

/** The figures of one stage; `topology` tells the kinds apart. */
export type StageSheet = TubeStageSheet | PushPullSheet | FollowerSheet | SplitterSheet;

/** The sheet of one stage with what is wrong with its description; paths lead from the stage. */
export interface StageResult<Sheet extends StageSheet = StageSheet> {
  sheet: Sheet;
  problems: LoadFault[];
  /** Left out for stages without a chart of curves, and without an operating point. */
  diagram?: () => StageDiagram | null;
}

/** What the charts of a stage draw besides its sheet. */
export type StageDiagram = PlateDiagram | PushPullDiagram;

/** What every stage's sheet has, whatever it is made of. */
export interface AnyStageSheet {
  id: string;
  limits: LimitRow[];
  explanation: string[];
  absent: Absent;
}

export interface TubeStageSheet extends AnyStageSheet {
  topology: TubeStageDescription['topology'];
  device: string;
  connection: Connection;
  /** Only in distributed load. */
  tapRatio: number | null;
  /** Tubes in parallel; currents are those of all together. */
  count: number;
  /** File of the traced curves in place of a model. */
  curvesFrom: string | null;
  /** The type's model against the traced curves. */
  modelFit: ModelFit | null;
  measured: MeasuredComparison | null;
  /** As typed in the description, in place of an operating point. */
  typed: SmallSignal | null;
  modelSource: string | null;
  operatingPoint: OperatingPoint | null;
  gain: StageGain | null;
  /** Only with an output transformer. */
  output?: OutputSheet;
  /** Output impedance and low corners; null without slopes. */
  coupling: Coupling | null;
  atLoad: AtLoad | null;
  candidates: Candidate[];
  sweep: SweepRow[];
}

/** A fault with the keys that lead to the value in the description. */
export interface LoadFault extends Fault {
  path: (string | number)[];
}

export interface LoadSheet {
  /** The way from the source to the speaker; null where none is described. */
  chain: ChainSheet | null;
  /**
   * Twice the plate supply with the mains 10 % high: what the plate of a transformer-coupled stage swings to at full
   * drive, on the cautious side. Null without such a stage or without a plate supply.
   */
  peakPlateV: number | null;
  stages: StageSheet[];
  supply: SupplySheet | null;
  problems: LoadFault[];
}
