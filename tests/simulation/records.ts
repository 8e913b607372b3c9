import { type ChannelSummary, type Harmonic, summariseWaveform } from '../../src/signal/index.ts';
import { channel, tone, uniform } from '../signal/signals.ts';

/** Records of each kind. */
export const runs = 5000;
/** Drawn once, by the operating system's generator, and kept: every run sees the same records. */
const seed = 2_926_584_576;

/** One kind of small record. */
export interface Kind {
  length: number;
  /** Cycles in the record, from a number in [0, 1). */
  cycles: (share: number) => number;
  /** Peak amplitudes of orders 1, 2, …; those beyond the tenth are there but not counted. */
  amplitudes: readonly number[];
  /** What is added or done to the record. `cycles` are those of its fundamental. */
  spoil: (record: Float64Array, chance: Chance) => Float64Array;
}

/** The chances of one record. */
export interface Chance {
  seed: number;
  next: () => number;
  cycles: number;
}

/** What the figures of one record say of the truth. */
interface Verdict {
  complete: boolean;
  frequency: boolean;
  level: boolean;
  thd: boolean;
  /** Whether the interval of each order from the second on holds. */
  harmonics: boolean[];
  /** Whether an order that is absent is marked as detected. */
  falseAlarm: boolean;
  thdFromZero: boolean;
}

/** How many of the records each thing is true of. */
export interface Counts {
  complete: number;
  frequency: number;
  level: number;
  thd: number;
  harmonic: (order: number) => number;
  falseAlarm: number;
  thdFromZero: number;
}

const counted = 10;

/** Analyses 5,000 records of a kind; frequency is in cycles per sample. */
export function simulate(kind: Kind): Counts {
  const verdicts = Array.from({ length: runs }, (_, run) => judged(kind, run));
  const count = (holds: (verdict: Verdict) => boolean) => verdicts.filter(holds).length;
  return {
    complete: count((verdict) => verdict.complete),
    frequency: count((verdict) => verdict.frequency),
    level: count((verdict) => verdict.level),
    thd: count((verdict) => verdict.thd),
    harmonic: (order) => count((verdict) => verdict.harmonics[order - 2] === true),
    falseAlarm: count((verdict) => verdict.falseAlarm),
    thdFromZero: count((verdict) => verdict.thdFromZero),
  };
}

function judged(kind: Kind, run: number): Verdict {
  const chanceSeed = (seed + 104_729 * run) >>> 0;
  const next = uniform(chanceSeed);
  const cycles = kind.cycles(next());
  const phases = kind.amplitudes.map(() => 2 * Math.PI * next());
  const frequency = cycles / kind.length;
  const pure = tone(kind.length, { frequency, amplitudes: kind.amplitudes, phases, dc: next() });
  const record = kind.spoil(pure, { seed: chanceSeed ^ 0x5bd1e995, next, cycles });
  const [summary] = summariseWaveform([channel(record)], 1, { harmonics: counted, bandHz: [0, 1] }).channels;
  if (!summary) throw new Error('no channel');
  return verdictOn(summary, kind.amplitudes, frequency);
}

function verdictOn(
  { fundamental, harmonics, thd }: ChannelSummary,
  amplitudes: readonly number[],
  frequency: number,
): Verdict {
  const [first = 1] = amplitudes;
  const total = Math.hypot(...amplitudes.slice(1, counted)) / first;
  const within = (value: number, truth: number, halfWidth: number) => Math.abs(value - truth) <= halfWidth;
  const { frequencyHz = 0, frequencyUncertaintyHz = 0, rms = 0, rmsUncertainty = 0 } = fundamental ?? {};
  const factor = fundamental?.coverageFactor ?? 0;
  const truth = ({ order }: Harmonic) => (amplitudes[order - 1] ?? 0) / first;
  return {
    complete: fundamental !== null && thd?.orders[1] === counted,
    frequency: within(frequencyHz, frequency, factor * frequencyUncertaintyHz),
    level: within(rms, first * Math.SQRT1_2, factor * rmsUncertainty),
    thd: thd !== null && thd.low <= total && total <= thd.high,
    harmonics: harmonics.map(
      (harmonic) => harmonic.low <= truth(harmonic) && truth(harmonic) <= harmonic.high,
    ),
    falseAlarm: harmonics.some((harmonic) => harmonic.detected && truth(harmonic) === 0),
    thdFromZero: thd?.low === 0,
  };
}
