import { cautiousHalf95, chiSquareAbove, repeatStatistics, wrapDegrees } from '../../signal/index.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import { noiseMayExplain, recordUncertainty } from './standard-uncertainty.ts';

/** One of several captures of the same thing. */
export interface Member {
  name: string;
  figures: readonly Figure[];
}

/** What is said about a list of repeats as a whole. */
export interface RepeatsContext {
  /** Record that declares the repeats. */
  file: string;
  /** What was done anew between one capture and the next. */
  between: string;
}

/** A figure that all repeats have. */
export interface RepeatedFigure {
  /** Mean of all, with the 95 % interval of the mean. */
  figure: Figure;
  count: number;
  /** Experimental standard deviation of one capture, in the figure's unit. */
  standardDeviation: number;
  /** What one record's noise alone would scatter by, one sigma; null where the records do not say. */
  recordUncertainty: number | null;
  /** True where the captures scatter by more than their noise explains, at 5 %; null where that is not known. */
  scattersMore: boolean | null;
}

/** A figure that some of the repeats lack, with the reason of each that does. */
export interface UnrepeatedFigure {
  id: string;
  subject?: string;
  lacking: { capture: string; reason: string }[];
}

export interface RepeatSummary {
  repeated: RepeatedFigure[];
  unrepeated: UnrepeatedFigure[];
}

/**
 * Mean and spread of every figure over captures of the same thing, each in the figure's own unit: decibels are averaged
 * as decibels, angles about the first one. Figures that a capture lacks are listed with its reason.
 *
 * @source JCGM 100:2008, 4.2.1 to 4.2.3 (mean, experimental standard deviation, that of the mean), G.3.2 (Student's t);
 * the part that the instrument adds as in `cautiousHalf95`.
 */
export function summariseRepeats(members: readonly Member[], context: RepeatsContext): RepeatSummary {
  const groups = groupsOf(members).map((group) => summariseGroup(group, members, context));
  return {
    repeated: groups.flatMap((group) => ('figure' in group ? [group] : [])),
    unrepeated: groups.flatMap((group) => ('lacking' in group ? [group] : [])),
  };
}

type Named = Pick<Figure, 'id' | 'subject'>;

const sameAs = (one: Named) => (other: Named) => one.id === other.id && one.subject === other.subject;

/** Every figure that any capture names, in the order of their first appearance. */
function groupsOf(members: readonly Member[]): Figure[] {
  const all = members.flatMap(({ figures }) => figures);
  return all.filter((figure, i) => all.findIndex(sameAs(figure)) === i);
}

function summariseGroup(
  named: Figure,
  members: readonly Member[],
  context: RepeatsContext,
): RepeatedFigure | UnrepeatedFigure {
  const found = members.map(({ name, figures }) => ({ name, figure: figures.find(sameAs(named)) }));
  const usable = found.flatMap(({ figure }) => (figure && figure.value !== null ? [figure] : []));
  if (usable.length === members.length) return repeatedFigure(named, usable, context, members);
  const lacking = found.flatMap(({ name, figure }) =>
    figure && figure.value !== null
      ? []
      : [{ capture: name, reason: figure?.absent ?? 'The capture does not give this figure.' }],
  );
  return { id: named.id, ...(named.subject === undefined ? {} : { subject: named.subject }), lacking };
}

function repeatedFigure(
  { id, unit, subject, conditions }: Figure,
  figures: readonly Figure[],
  { file, between }: RepeatsContext,
  members: readonly Member[],
): RepeatedFigure {
  const { mean, deviation } = statisticsOf(figures);
  const count = figures.length;
  const noise = noiseOf(figures);
  const figure: Figure = {
    ...{ id, value: mean, unit, conditions },
    ...(subject === undefined ? {} : { subject }),
    ...intervalOf(figures, mean, deviation),
    ...remarkOf(figures),
    provenance: {
      ...{ file, sha256: null, lines: null, method: 'repeats' },
      settings: { Captures: members.map(({ name }) => name).join(', '), 'Done anew between them': between },
    },
  };
  return {
    ...{ figure, count, standardDeviation: deviation, recordUncertainty: noise },
    scattersMore: noise === null ? null : scatterExceeds(deviation, noise, count),
  };
}

/** Mean and experimental standard deviation; angles are taken as they stand around the first one. */
function statisticsOf(figures: readonly Figure[]): { mean: number; deviation: number } {
  const values = figures.map(({ value }) => value ?? 0);
  const first = values[0] ?? 0;
  const angle = figures[0]?.unit === '°';
  const straight = angle ? values.map((value) => first + wrapDegrees(value - first)) : values;
  const { mean = first, standardDeviation } = repeatStatistics(Float64Array.from(straight)) ?? {};
  return { mean: angle ? wrapDegrees(mean) : mean, deviation: standardDeviation ?? 0 };
}

/** The 95 % interval of the mean; none where all readings are alike, as nothing then tells how far they are good. */
function intervalOf(
  figures: readonly Figure[],
  mean: number,
  deviation: number,
): Partial<Pick<Figure, 'low' | 'high' | 'systematic' | 'random'>> {
  const count = figures.length;
  const systematic = Math.max(...figures.map((figure) => figure.systematic ?? 0));
  const stated = systematic > 0 ? { systematic } : {};
  if (deviation === 0) return stated;
  const random = deviation / Math.sqrt(count);
  const half95 = cautiousHalf95([{ standard: random, freedom: count - 1 }], [systematic]);
  const high = mean + half95;
  if (figures.some(noiseMayExplain)) return { low: 0, high, ...stated };
  const isRatio = definitionOf(figures[0]?.id ?? '')?.display === 'percent';
  return { low: isRatio ? Math.max(0, mean - half95) : mean - half95, high, random, ...stated };
}

/** What is remarked at the captures, with how many of them where it is not all. */
function remarkOf(figures: readonly Figure[]): { remark?: string } {
  const remarks = figures.flatMap(({ remark }) => remark ?? []);
  const counted = [...new Set(remarks)].map((remark) => {
    const times = remarks.filter((other) => other === remark).length;
    return times === figures.length ? remark : `${remark} in ${times} of ${figures.length}`;
  });
  const alike = figures.every(({ value }) => value === figures[0]?.value);
  const all = [...counted, ...(alike ? ['all readings alike to their last digit'] : [])];
  return all.length > 0 ? { remark: all.join('; ') } : {};
}

/** Root mean square of what the records' own noise gives; null where one of them does not say. */
function noiseOf(figures: readonly Figure[]): number | null {
  const own = figures.map(recordUncertainty).filter((one): one is number => one !== null && one > 0);
  return own.length === figures.length ? Math.hypot(...own) / Math.sqrt(own.length) : null;
}

/**
 * Whether readings scatter by more than their own uncertainty explains, at a level of 5 %.
 * @source the sum of squared deviations over the variance is chi-square of n − 1 degrees: NIST/SEMATECH e-Handbook of
 * Statistical Methods, 1.3.5.8, from memory.
 */
function scatterExceeds(deviation: number, expected: number, count: number): boolean {
  return chiSquareAbove((count - 1) * (deviation / expected) ** 2, count - 1) < 0.05;
}
