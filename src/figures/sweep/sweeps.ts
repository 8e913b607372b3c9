import { quantityText } from '../../quantity/index.ts';
import type {
  FrequencySweepSummary,
  ImpedanceSweepSummary,
  LevelSweepSummary,
  Withheld,
} from '../../signal/index.ts';
import { type Draft, draftsComplete, type SweepSubject } from '../draft.ts';
import type { Figure } from '../types.ts';
import type { FigureContext } from '../waveform/waveform.ts';
import { thdAtPowerId } from './sweep-definitions.ts';

/** The figures of one channel of a frequency sweep. */
export function frequencySweepFigures(
  { response, distortion, withheld }: FrequencySweepSummary,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  const drafts: Draft[] = [];
  if (response) {
    const { referenceLevel, limits, deviation } = response;
    if (referenceLevel !== null) drafts.push(referenceDraft(referenceLevel, subject.unit));
    for (const { dropDb, lowerHz, upperHz } of limits) {
      drafts.push(limit('lower', dropDb, lowerHz, withheld), limit('upper', dropDb, upperHz, withheld));
    }
    drafts.push(deviationDraft(deviation, withheld));
  }
  for (const { order, atReference } of distortion) {
    const id = order === null ? 'thd-at-1khz' : `harmonic-${order}-at-1khz`;
    const named = order === null ? 'thd at reference' : `harmonic ${order} at reference`;
    drafts.push({ id, value: atReference, unit: '1', ...reasonOf(atReference, named, withheld) });
  }
  return draftsComplete(drafts, subject, context);
}

/** A plain ratio is a gain and goes into decibels; the square root of watts goes back to watts. */
function referenceDraft(level: number, unit: string): Draft {
  if (unit === '1') return { id: 'gain-at-1khz', value: 20 * Math.log10(level), unit: 'dB' };
  return { id: 'level-at-1khz', value: unit === 'W' ? level ** 2 : level, unit };
}

function limit(
  side: 'lower' | 'upper',
  dropDb: number,
  value: number | null,
  withheld: readonly Withheld[],
): Draft {
  const reason = reasonOf(value, `${side} limit at −${dropDb} dB`, withheld);
  return { id: `${side}-limit-${dropDb}db`, value, unit: 'Hz', ...reason };
}

function deviationDraft(
  deviation: NonNullable<FrequencySweepSummary['response']>['deviation'],
  withheld: readonly Withheld[],
): Draft {
  const named = { id: 'largest-deviation', unit: 'dB' };
  if (!deviation) return { ...named, value: null, ...reasonOf(null, 'deviation', withheld) };
  const { db, atHz, bandHz } = deviation;
  const band = `${quantityText(bandHz[0], 'Hz')} to ${quantityText(bandHz[1], 'Hz')}`;
  return { ...named, value: db, at: { at: quantityText(atHz, 'Hz'), band } };
}

/** The figures of one channel of a level sweep. */
export function levelSweepFigures(
  summary: LevelSweepSummary,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  const { powerAtThd, atPower, largestPowerW, withheld } = summary;
  const powers = powerAtThd.map(({ thdRatio, powerW }): Draft => {
    const reason = reasonOf(powerW, `power at ${thdRatio} distortion`, withheld, 'powerAtThd');
    return { id: `power-at-${Math.round(100 * thdRatio)}-percent`, value: powerW, unit: 'W', ...reason };
  });
  const atStated = atPower.map(({ powerW, thd }): Draft => {
    const reason = reasonOf(thd, `distortion at ${powerW} W`, withheld, 'atPower');
    return { id: thdAtPowerId(powerW), value: thd, unit: '1', ...reason };
  });
  const drafts: Draft[] = [
    ...powers,
    ...atStated,
    {
      id: 'largest-power',
      value: largestPowerW,
      unit: 'W',
      ...reasonOf(largestPowerW, 'largestPowerW', withheld),
    },
  ];
  return draftsComplete(drafts, subject, context);
}

/** The figures of one channel of an impedance sweep. */
export function impedanceSweepFigures(
  { minimum, maximum }: ImpedanceSweepSummary,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  const absent = 'The sweep has no usable point.';
  const drafts = [
    { name: 'impedance-minimum', extreme: minimum },
    { name: 'impedance-maximum', extreme: maximum },
  ].flatMap(({ name, extreme }): Draft[] => [
    { id: name, value: extreme?.ohm ?? null, unit: 'Ω', ...(extreme ? {} : { absent }) },
    { id: `${name}-frequency`, value: extreme?.atHz ?? null, unit: 'Hz', ...(extreme ? {} : { absent }) },
  ]);
  return draftsComplete(drafts, subject, context);
}

/** Why a figure is null, by the name the analysis gives it or by that of its group. */
function reasonOf(
  value: number | null,
  figure: string,
  withheld: readonly Withheld[],
  group?: string,
): { absent?: string } {
  if (value !== null) return {};
  const found =
    withheld.find((entry) => entry.figure === figure) ?? withheld.find((entry) => entry.figure === group);
  return { absent: found?.reason ?? 'The sweep does not support it.' };
}
