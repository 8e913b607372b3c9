import { cautiousHalf95, type UncertaintyPart, wrapDegrees } from '../../signal/index.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import type { RepeatedFigure } from './repeats.ts';
import { halvesOf, noiseMayExplain, recordUncertainty } from './standard-uncertainty.ts';

/** How far single captures scatter when everything is set up anew. */
export interface Repeatability {
  /** Standard deviation of one capture, in the figure's unit. */
  standardDeviation: number;
  /** Degrees of freedom behind it. */
  freedom: number;
  /** True where it was declared from earlier captures and not found by repeating these. */
  isDeclared: boolean;
}

/** One side of a difference: the figure of a single capture, or the mean of repeats. */
export interface Measured {
  figure: Figure;
  /** Captures behind the value. */
  count: number;
  /** Null where nothing is known about how far captures of this side scatter. */
  repeatability: Repeatability | null;
}

/** What two figures allow to be said; lower and higher are the second re the first. */
export type Verdict = 'lower' | 'higher' | 'different in these captures' | 'cannot be told apart' | 'no data';

/** Of which side the scatter of captures is known; that of one side is taken to hold for both. */
export type KnownScatter = 'both' | 'first' | 'second' | 'neither';

/** The second figure less the first. */
export interface FigureDifference {
  verdict: Verdict;
  scatter: KnownScatter;
  /** Of which side the known scatter is a declared one. */
  declared: KnownScatter;
  /** In the figures' unit; null where a side has no value. */
  value: number | null;
  /** The 95 % interval: of the difference where scatter is known, of these two records alone where it is not. */
  low?: number;
  high?: number;
  /** The second over the first, of ratios that are told from noise. */
  decibels: number | null;
  /** Why there is no value. */
  absent?: string;
}

/** The figure of one capture, of which it is not known how it repeats. */
export const singleMeasured = (figure: Figure): Measured => ({ figure, count: 1, repeatability: null });

/** The mean of repeats; a spread of nothing says that the readings are coarse, not that they repeat. */
export function repeatedMeasured({ figure, count, standardDeviation }: RepeatedFigure): Measured {
  const known = standardDeviation > 0;
  const repeatability = { standardDeviation, freedom: count - 1, isDeclared: false };
  return { figure, count, repeatability: known ? repeatability : null };
}

/**
 * The difference of two figures of the same id and unit, and what may be said about it. `lower` and `higher` take known
 * scatter of captures set up anew, on both sides or on one whose scatter then holds for both. Without any, captures whose
 * intervals do not overlap are `different in these captures`; it is not known whether the next ones would be. A scatter
 * that was declared counts as known, and the result says of which side it was.
 *
 * What instruments add counts as independent on both sides. A ratio that noise alone may have made is never told from
 * one whose interval it overlaps, as noise raises all its readings alike.
 *
 * @source JCGM 100:2008, G.4.1 (B. L. Welch, Biometrika 34:28 (1947), from memory) for two scatters; one
 * scatter for both sides is the two-sample t of equal variances. Two declared ones may come from one series and count as
 * one estimate of the lower degrees of freedom, which is never narrower than G.4.1. Intervals of unequal halves: G. Y. Zou, A. Donner,
 * Stat. Med. 27:1693 (2008), from memory.
 */
export function figureDifference(first: Measured, second: Measured): FigureDifference {
  const scatter = sidesWith(first, second, ({ repeatability }) => repeatability !== null);
  const declared = sidesWith(first, second, ({ repeatability }) => repeatability?.isDeclared ?? false);
  const [before, after] = [first.figure.value, second.figure.value];
  const none = { scatter, declared, value: null, decibels: null };
  if (before === null || after === null) {
    const missing = before === null ? first : second;
    return { ...none, verdict: 'no data', absent: missing.figure.absent ?? 'The figure is not known.' };
  }
  const value = first.figure.unit === '°' ? wrapDegrees(after - before) : after - before;
  const bounds = scatter === 'neither' ? ofRecords(first, second) : ofScatter(first, second);
  const around = bounds && { low: value - bounds.below, high: value + bounds.above };
  return {
    ...{
      verdict: verdictOf({ value, around, scatter, overlap: overlapOf(first, second) }),
      scatter,
      declared,
      value,
    },
    ...around,
    decibels: inDecibels(first.figure, second.figure),
  };
}

function sidesWith(first: Measured, second: Measured, has: (side: Measured) => boolean): KnownScatter {
  if (has(first)) return has(second) ? 'both' : 'first';
  return has(second) ? 'second' : 'neither';
}

interface Halves {
  below: number;
  above: number;
}

/** Halves of the difference's interval as the two records alone give it. */
function ofRecords({ figure: first }: Measured, { figure: second }: Measured): Halves | null {
  const [one, other] = [halvesOf(first), halvesOf(second)];
  if (!one || !other) return null;
  return { below: Math.hypot(other.below, one.above), above: Math.hypot(other.above, one.below) };
}

function ofScatter(first: Measured, second: Measured): Halves {
  const stated = [first, second].map(({ figure }) => figure.systematic ?? 0);
  const half95 = cautiousHalf95(partsOf(first, second), stated);
  return { below: half95, above: half95 };
}

/** The scatter of both sides; one that is taken for both is one estimate, with its degrees of freedom once. */
function partsOf(first: Measured, second: Measured): UncertaintyPart[] {
  const one = first.repeatability;
  const other = second.repeatability;
  if (one && other) return together(ofMean(first, one), ofMean(second, other), one, other);
  const known = one ?? other;
  if (!known) return [];
  const sides = [ofMean(first, known), ofMean(second, known)].map(({ standard }) => standard);
  return [{ standard: Math.hypot(...sides), freedom: known.freedom }];
}

/** Scatters found by repeating are two estimates; two declared ones may be one, and count as one. */
function together(
  first: UncertaintyPart,
  second: UncertaintyPart,
  one: Repeatability,
  other: Repeatability,
): UncertaintyPart[] {
  if (!one.isDeclared || !other.isDeclared) return [first, second];
  const standard = Math.hypot(first.standard, second.standard);
  return [{ standard, freedom: Math.min(one.freedom, other.freedom) }];
}

/** The mean of `count` captures; a single one is known no better than its own record says. */
function ofMean({ figure, count }: Measured, known: Repeatability): UncertaintyPart {
  const scatter = known.standardDeviation / Math.sqrt(count);
  const own = count === 1 ? (recordUncertainty(figure) ?? 0) : 0;
  return { standard: Math.max(scatter, own), freedom: known.freedom };
}

type Overlap = 'apart' | 'noise may explain' | 'overlap' | 'no interval';

function overlapOf({ figure: first }: Measured, { figure: second }: Measured): Overlap {
  if (first.low === undefined || first.high === undefined) return 'no interval';
  if (second.low === undefined || second.high === undefined) return 'no interval';
  if (first.high < second.low || second.high < first.low) return 'apart';
  return noiseMayExplain(first) || noiseMayExplain(second) ? 'noise may explain' : 'overlap';
}

interface Evidence {
  value: number;
  around: { low: number; high: number } | null;
  scatter: KnownScatter;
  overlap: Overlap;
}

function verdictOf({ value, around, scatter, overlap }: Evidence): Verdict {
  if (scatter === 'neither')
    return overlap === 'apart' ? 'different in these captures' : 'cannot be told apart';
  const clear = around !== null && (around.low > 0 || around.high < 0);
  if (!clear || overlap === 'noise may explain') return 'cannot be told apart';
  return value < 0 ? 'lower' : 'higher';
}

function inDecibels(first: Figure, second: Figure): number | null {
  if (definitionOf(first.id)?.display !== 'percent') return null;
  if (noiseMayExplain(first) || noiseMayExplain(second)) return null;
  if (!((first.value ?? 0) > 0) || !((second.value ?? 0) > 0)) return null;
  return 20 * Math.log10((second.value ?? 0) / (first.value ?? 0));
}
