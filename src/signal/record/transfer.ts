import type { ChannelSummary, Harmonic } from '../types.ts';
import { wrapDegrees } from './wrap-degrees.ts';

/** Bounds of what a circuit added to one harmonic or to all of them, re the response's fundamental. */
export interface AddedDistortion {
  low: number;
  high: number;
}

/** One harmonic of a response beside the stimulus's own, each re its own fundamental. */
export interface TransferredHarmonic {
  order: number;
  stimulus: number;
  response: number;
  added: AddedDistortion;
}

/** What happens to the fundamental between a stimulus and a response. */
export interface Transfer {
  stimulus: string;
  response: string;
  /** Response over stimulus at the fundamental, with its standard deviation. */
  gain: number;
  gainUncertainty: number;
  /** Unit of the response over that of the stimulus; '1' where they are equal. */
  unit: string;
  /** Phase of the response less that of the stimulus, degrees, (−180, 180], with its standard deviation. */
  phaseDeg: number;
  phaseUncertaintyDeg: number;
  /** What the two standard deviations are multiplied by for a 95 % interval. */
  coverageFactor: number;
  harmonics: TransferredHarmonic[];
  /** Of the root sum of squares of the harmonics; null where either channel has none. */
  added: AddedDistortion | null;
}

export interface RecordLength {
  rows: number;
  rateHz: number;
}

const deviate = 1.959963984540054;
/** Part of one cycle per record within which two fundamentals are one. */
const sameLine = 0.5;

type Fitted = ChannelSummary & { fundamental: NonNullable<ChannelSummary['fundamental']> };

/**
 * Gain and phase from stimulus to response at their common fundamental, from the two fits and their uncertainties,
 * and bounds of the distortion that was added on the way. Phases are compared in the middle of the record, where a
 * fit's phase and frequency do not depend on each other. The noise of the two channels is taken as independent, and
 * their samples as taken at the same instants.
 *
 * The bounds hold where the circuit passes a harmonic of the stimulus on as strongly as it passes the fundamental, in
 * whatever phase: a measured harmonic h_r is then what was added plus one of size h_s, so that the added one lies
 * between |h_r − h_s| and h_r + h_s. Noise widens them. Closer bounds need gain and phase at every order.
 *
 * Null where either channel has no fundamental, or the two are not one line.
 *
 * @source triangle inequality, for one harmonic and for the root sum of squares of all.
 */
export function transferBetween(
  stimulus: ChannelSummary,
  response: ChannelSummary,
  record: RecordLength,
): Transfer | null {
  if (!isFitted(stimulus) || !isFitted(response)) return null;
  const apartHz = Math.abs(stimulus.fundamental.frequencyHz - response.fundamental.frequencyHz);
  return apartHz > (sameLine * record.rateHz) / record.rows ? null : transfer(stimulus, response, record);
}

const isFitted = (channel: ChannelSummary): channel is Fitted => channel.fundamental !== null;

function transfer(stimulus: Fitted, response: Fitted, record: RecordLength): Transfer {
  const [from, to] = [stimulus.fundamental, response.fundamental];
  const gain = to.rms / from.rms;
  const relative = Math.hypot(from.rmsUncertainty / from.rms, to.rmsUncertainty / to.rms);
  return {
    stimulus: stimulus.name,
    response: response.name,
    gain,
    gainUncertainty: gain * relative,
    unit: stimulus.unit === response.unit ? '1' : `${response.unit}/${stimulus.unit}`,
    phaseDeg: wrapDegrees(middlePhase(response, record) - middlePhase(stimulus, record)),
    phaseUncertaintyDeg: (180 / Math.PI) * relative,
    coverageFactor: Math.max(from.coverageFactor, to.coverageFactor),
    harmonics: response.harmonics.flatMap((harmonic) => transferred(harmonic, stimulus.harmonics)),
    added: stimulus.thd && response.thd && bounds(stimulus.thd, response.thd),
  };
}

/** Phase in the middle of the record, degrees. */
function middlePhase({ fundamental }: Fitted, { rows, rateHz }: RecordLength): number {
  return fundamental.phaseDeg + (360 * fundamental.frequencyHz * (rows - 1)) / (2 * rateHz);
}

function transferred(response: Harmonic, stimuli: readonly Harmonic[]): TransferredHarmonic[] {
  const stimulus = stimuli.find(({ order }) => order === response.order);
  if (stimulus === undefined) return [];
  const noise = deviate * Math.hypot(stimulus.uncertainty, response.uncertainty);
  return [
    {
      order: response.order,
      stimulus: stimulus.ratio,
      response: response.ratio,
      added: {
        low: Math.max(0, Math.abs(response.ratio - stimulus.ratio) - noise),
        high: response.ratio + stimulus.ratio + noise,
      },
    },
  ];
}

/** Bounds of the difference of two sums whose true values lie in these intervals. */
function bounds(
  stimulus: { low: number; high: number },
  response: { low: number; high: number },
): AddedDistortion {
  return {
    low: Math.max(0, response.low - stimulus.high, stimulus.low - response.high),
    high: response.high + stimulus.high,
  };
}
