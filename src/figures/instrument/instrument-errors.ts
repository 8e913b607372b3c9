import type { TwoToneChannelSummary } from '../../signal/index.ts';
import type { Figure } from '../types.ts';
import { isTimed } from './clock.ts';
import { converterStep, type Instrument } from './instrument.ts';
import { bandLimit } from './instrument-band.ts';
import { isAdded, ownRatio } from './instrument-own.ts';

/** What the instrument may add to one figure, in the figure's unit. */
export interface InstrumentError {
  /** Standard uncertainty. */
  standard: number;
  /** What the error cannot exceed if all that is stated about the instrument holds. */
  limit: number;
}

/** What must be known of a channel to see how its instrument acts on it. */
export interface MeasuredChannel {
  /** Fundamental, or the frequency of a level sweep; null where it is not known. */
  frequencyHz: number | null;
  /** Degrees of freedom behind the uncertainty of the fundamental's level, and of the gain to it; infinite without. */
  freedom: number;
  gainFreedom: number;
  /** Step of the converter at the circuit, volts; null where it is not known or the channel is not in volts. */
  step: number | null;
  /** Load across which a level in volts was taken, for the step of a power. */
  loadOhm: number | null;
  /** True where signal-to-noise is re a level that the instrument did not measure. */
  ratedReference: boolean;
  /** Harmonics that were counted, by order; none where they are not known one by one. */
  harmonics: readonly { order: number; ratio: number }[];
  /** The two tones and their lines, in a two-tone capture. */
  twoTone: TwoToneChannelSummary | null;
}

/** A figure measured by an instrument on a channel. */
export interface Measured {
  figure: Pick<Figure, 'id' | 'unit' | 'low'> & { value: number };
  instrument: Instrument;
  channel: MeasuredChannel;
}

/** An error anywhere within ± limit: JCGM 100:2008, 4.3.7. */
const evenly = (limit: number): InstrumentError => ({ standard: limit / Math.sqrt(3), limit });
/** A vector of this size in any direction, seen along one of them: JCGM 101:2008, 6.4.6. */
const anyPhase = (size: number): InstrumentError => ({ standard: size / Math.SQRT2, limit: size });
/** Two vectors of this size, independent and in any direction each. */
const ofBoth = (size: number): InstrumentError => ({ standard: size, limit: 2 * size });
/** Two independent errors within ± limit each. */
const twice = (limit: number): InstrumentError => ({
  standard: (Math.SQRT2 * limit) / Math.sqrt(3),
  limit: 2 * limit,
});
const decibels = (ratio: number) => 20 * Math.log10(ratio);

/**
 * What an instrument adds to a figure; null where nothing that is stated about it touches the figure.
 * @source rectangular distribution: JCGM 100:2008, 4.3.7; unknown phase: JCGM 101:2008, 6.4.6; root sum of squares:
 * JCGM 100:2008, 5.1.2.
 */
export function instrumentError(measured: Measured): InstrumentError | null {
  const errors = [gainError, clockError, bandError, stepError, distortionError];
  const parts = errors.map((error) => error(measured)).filter((part) => part !== null);
  if (parts.length === 0) return null;
  return {
    standard: Math.hypot(...parts.map(({ standard }) => standard)),
    limit: parts.reduce((sum, { limit }) => sum + limit, 0),
  };
}

/** Levels and impedances follow the gain, powers its square, a gain that of two channels. */
function gainError({ figure: { id, unit, value }, instrument, channel }: Measured): InstrumentError | null {
  const { gainAccuracy: limit } = instrument;
  if (limit === undefined || isNominal(id)) return null;
  if (/^gain-at-/.test(id)) return twice(decibels(1 + limit));
  if (/^signal-to-noise/.test(id)) return channel.ratedReference ? evenly(decibels(1 + limit)) : null;
  const power = powerOfGain(id, unit);
  return power === 0 ? null : evenly(power * limit * Math.abs(value));
}

const isNominal = (id: string) => id === 'rated-impedance';

function powerOfGain(id: string, unit: string): 0 | 1 | 2 {
  if (unit === 'W') return 2;
  return ['V', 'A', 'Ω', 'H'].includes(unit) || id === 'damping-factor-at-1khz' ? 1 : 0;
}

/** A frequency measured in samples is off by as much as the clock that took them. */
function clockError({ figure, instrument: { clockAccuracy } }: Measured): InstrumentError | null {
  return clockAccuracy === undefined || !isTimed(figure) ? null : evenly(clockAccuracy * figure.value);
}

/** A line of high frequency may read low by as much as the instrument's band lets it. */
function bandError(measured: Measured): InstrumentError | null {
  const limit = bandLimit(measured);
  return limit === null || limit === 0 ? null : evenly(limit);
}

/** In the waveform itself the converter's step is part of the noise; it is not in a constant or a row of a sweep. */
function stepError({ figure: { id, unit, value }, channel }: Measured): InstrumentError | null {
  const { step, loadOhm } = channel;
  if (step === null) return null;
  if (unit === 'V' && (id === 'dc' || id === 'level-at-1khz')) return evenly(step / 2);
  if (unit !== 'W' || loadOhm === null || !isReadFromRows(id)) return null;
  return evenly(Math.sqrt(value / loadOhm) * step);
}

const isReadFromRows = (id: string) =>
  /^(power-at-\d+-percent|largest-power|clipping-onset|gain-fall)$/.test(id);

function distortionError(measured: Measured): InstrumentError | null {
  const own = ownRatio(measured);
  if (own === null) return null;
  const { id, value } = measured.figure;
  if (id === 'sinad') return sinadError(value, own);
  return isAdded(id) ? ofBoth(own / 2) : anyPhase(own);
}

/** In decibels, by the side on which it is larger; null where the instrument alone could have given the ratio. */
function sinadError(value: number, own: number): InstrumentError | null {
  const share = own / 10 ** (-value / 20);
  return share < 1 ? anyPhase(-decibels(1 - share)) : null;
}

/** The step of a channel in volts: the one its own samples show where the instrument's range was a smaller one. */
export function stepOfRecord(
  instrument: Instrument,
  { probe, peak, levelStep }: { probe: number; peak: number; levelStep: number | null },
): number | null {
  const stated = converterStep(instrument);
  const { bits } = instrument;
  if (stated === null || bits === undefined) return null;
  const fits = levelStep !== null && levelStep < stated * probe && levelStep * 2 ** (bits - 1) >= peak;
  return fits ? levelStep : stated * probe;
}
