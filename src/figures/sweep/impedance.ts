import { quantityText } from '../../quantity/index.ts';
import {
  type ImpedanceCurve,
  type ImpedanceDetails,
  type ImpedanceObject,
  impedanceAt,
  type LoudspeakerError,
  type OutputImpedance,
} from '../../signal/index.ts';
import { type Draft, draftsComplete, type SweepSubject } from '../draft.ts';
import type { Figure } from '../types.ts';
import type { FigureContext } from '../waveform/waveform.ts';
import { absence } from './sweep-absence.ts';

/** What a log declares about an impedance sweep. */
export interface ImpedanceDeclaration {
  /** What was measured; undefined where the log does not say. */
  object?: ImpedanceObject | undefined;
  /** State of a transformer's secondary winding while its primary was measured. */
  secondary?: 'open' | 'shorted' | undefined;
}

/** The figures that an impedance sweep gives for what was measured, the extremes aside. */
export function impedanceDetailFigures(
  details: ImpedanceDetails,
  declared: ImpedanceDeclaration,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  if (declared.secondary) {
    return draftsComplete([inductanceDraft(details, declared.secondary, context)], subject, context);
  }
  if (declared.object === 'amplifier' || declared.object === 'transformer') return [];
  const unsaid = declared.object === undefined ? { remark: 'if this is a loudspeaker' } : {};
  const { ratedOhm, resonance } = details;
  const none = resonance ? {} : { absent: absence.noResonance() };
  const place = resonance ? { remark: placeText(resonance) } : none;
  const rated: Draft =
    ratedOhm === null
      ? { id: 'rated-impedance', value: null, unit: 'Ω', absent: absence.noRated() }
      : { id: 'rated-impedance', value: ratedOhm, unit: 'Ω', ...unsaid };
  const drafts = [
    rated,
    { id: 'resonance-frequency', value: resonance?.atHz ?? null, unit: 'Hz', ...place },
    { id: 'resonance-impedance', value: resonance?.ohm ?? null, unit: 'Ω', ...none },
  ];
  return draftsComplete(drafts, subject, context);
}

function placeText({ by, betweenHz }: NonNullable<ImpedanceDetails['resonance']>): string {
  const [from, to] = betweenHz.map((hertz) => quantityText(hertz, 'Hz'));
  return `${by === 'phase' ? 'phase zero' : 'largest modulus'} between ${from} and ${to}`;
}

/** The level of the measurement belongs to an inductance with an iron core. */
function inductanceDraft(
  { inductance }: ImpedanceDetails,
  secondary: 'open' | 'shorted',
  { conditions }: FigureContext,
): Draft {
  const named = { id: secondary === 'open' ? 'primary-inductance' : 'leakage-inductance', unit: 'H' };
  if (!inductance) return { ...named, value: null, absent: absence.noInductance() };
  const { henry, low, high, rangeHz, by } = inductance;
  const [from, to] = rangeHz.map((hertz) => quantityText(hertz, 'Hz'));
  const level = conditions['level'] ? `at ${conditions['level']}` : 'level not stated';
  const remark = `by ${by} from ${from} to ${to}, ${level}`;
  return { ...named, value: henry, low, high, remark, at: { secondary } };
}

/** An amplifier's output impedance, and what a loudspeaker makes of it. */
export interface AmplifierOutput {
  impedance: OutputImpedance;
  /** Null where no loudspeaker is named; `error` is null where its sweep shares no reference with this one. */
  loudspeaker: { title: string; error: LoudspeakerError | null } | null;
  ratedOhm: number | null;
}

/** Output impedance, damping factor and the response error at a loudspeaker. */
export function amplifierOutputFigures(
  output: AmplifierOutput,
  subject: Pick<SweepSubject, 'channel'>,
  context: FigureContext,
): Figure[] {
  const drafts = [...impedanceDrafts(output), ...loudspeakerDrafts(output)];
  return draftsComplete(drafts, subject, context);
}

const resistive = 'as if resistive: the levels have no phase';

function impedanceDrafts({ impedance, ratedOhm }: AmplifierOutput): Draft[] {
  const { frequencyHz, ohm, phaseDeg } = impedance;
  const at = atReference(impedance);
  const caution = phaseDeg ? {} : { remark: resistive };
  const missing = frequencyHz.length === 0 ? absence.noOutput() : absence.noReference();
  const named = { id: 'output-impedance-at-1khz', unit: 'Ω' };
  const largest = ohm.reduce((most, value, i) => (value > (ohm[most] ?? 0) ? i : most), 0);
  return [
    at ? { ...named, ...at, ...caution } : { ...named, value: null, absent: missing },
    {
      id: 'output-impedance-largest',
      value: ohm[largest] ?? null,
      unit: 'Ω',
      ...(ohm.length > 0
        ? { remark: `at ${quantityText(frequencyHz[largest] ?? 0, 'Hz')}` }
        : { absent: missing }),
    },
    dampingDraft(at, ratedOhm, missing),
  ];
}

interface Bounded {
  value: number;
  low?: number;
  high?: number;
}

/** Signed value at 1 kHz; from levels without phase it may come out negative, and then says so. */
function atReference(impedance: OutputImpedance): Bounded | null {
  const found = impedanceAt(impedance, 1000);
  if (!found) return null;
  const value = impedance.phaseDeg ? Math.hypot(found.re, found.im) : found.re;
  const { halfWidthOhm: halves, frequencyHz } = impedance;
  const half =
    halves && impedanceAt({ frequencyHz, ohm: halves, phaseDeg: null } satisfies ImpedanceCurve, 1000);
  if (!half) return { value };
  return {
    value,
    low: impedance.phaseDeg ? Math.max(0, value - half.re) : value - half.re,
    high: value + half.re,
  };
}

function dampingDraft(at: Bounded | null, ratedOhm: number | null, missing: string): Draft {
  const named = { id: 'damping-factor-at-1khz', value: null, unit: '1' };
  if (!at) return { ...named, absent: missing };
  if (ratedOhm === null) return { ...named, absent: absence.noRatedLoad() };
  if (!(at.value > 0)) return { ...named, absent: absence.negative() };
  const bounded =
    at.low !== undefined && at.high !== undefined && at.low > 0
      ? { low: ratedOhm / at.high, high: ratedOhm / at.low }
      : {};
  return { ...named, value: ratedOhm / at.value, ...bounded, remark: `re ${quantityText(ratedOhm, 'Ω')}` };
}

function loudspeakerDrafts({ loudspeaker, ratedOhm }: AmplifierOutput): Draft[] {
  if (!loudspeaker) return [];
  const { error } = loudspeaker;
  const named = (id: string) => ({ id, unit: 'dB' });
  if (!error) {
    const absent = ratedOhm === null ? absence.noRatedLoad() : absence.nothingShared();
    return ['largest-response-error', 'response-error-range'].map((id) => ({
      ...named(id),
      value: null,
      absent,
    }));
  }
  const { largest, highest, lowest, bandHz, withPhase } = error;
  const [from, to] = bandHz.map((hertz) => quantityText(hertz, 'Hz'));
  const band = { band: `${from} to ${to}` };
  const caution = withPhase ? '' : ', as if both were resistances';
  return [
    {
      ...named('largest-response-error'),
      value: largest.db,
      remark: `at ${quantityText(largest.atHz, 'Hz')}${caution}`,
      at: band,
    },
    {
      ...named('response-error-range'),
      value: highest.db - lowest.db,
      remark: `from ${from} to ${to}${caution}`,
      at: band,
    },
  ];
}

/** What a reader of an output impedance must mind, in full sentences. */
export function amplifierOutputNotes({ impedance, loudspeaker }: AmplifierOutput): string[] {
  const trap =
    'These levels have no phase, so the output impedance is the resistance that would explain them. It falls short of a reactive one: a source of 0.1 Ω with 1 Ω of reactance in series reads 0.28 Ω from levels into 8 Ω and 4 Ω, and has 1.005 Ω.';
  const both =
    'Without phase on both sides, output impedance and loudspeaker are taken as resistances; where they are reactive they can add up to more or to less.';
  return [
    ...(impedance.phaseDeg ? [] : [trap]),
    ...(loudspeaker?.error && !loudspeaker.error.withPhase ? [both] : []),
    ...(impedance.leftOut > 0
      ? [`The levels give no output impedance at ${impedance.leftOut} of the frequencies.`]
      : []),
  ];
}
