import { studentExceeded } from '../signal/index.ts';
import { type Along, type PlacePair, placePair, type Ranking, rankingOf, sharedPlaces } from './ranking.ts';
import { type CurveReader, curveReader, type FactorOf, positiveCurve, type ReadCurve } from './read-curve.ts';

/** One curve of two alternatives. */
export interface CurvePair {
  along: Along;
  /** What both share over the curve: "at 1.00 W". */
  held: string;
  first: ReadCurve;
  second: ReadCurve;
}

/** A band with its name, in hertz. */
export interface NamedBand {
  name: string;
  band: readonly [number, number];
}

/** Means of one figure of two alternatives over a band. */
export interface BandPair extends NamedBand {
  /** Id of the figure, and what both share. */
  figure: string;
  held: string;
  /** Null where the two curves share no octave of the band; otherwise `band` is what they share of it. */
  pair: PlacePair | null;
}

/** Everything that is said of two alternatives from their curves. */
export interface CurveComparison {
  rankings: Ranking[];
  bands: BandPair[];
}

/** The whole chance of a finding where there is nothing to find. */
const chance = 0.05;

/**
 * Compares curves of pairs of alternatives, one list of curves a pair. All intervals hold together: with m readings looked
 * at in the whole comparison each is one of 1 − 0.05/m, so that alternatives that do not differ are told apart anywhere
 * in one comparison of twenty at most.
 * @source Bonferroni’s inequality for simultaneous intervals: O. J. Dunn, J. Amer. Statist. Assoc. 56:52 (1961), from
 * memory.
 */
export function compareCurves(
  pairs: readonly (readonly CurvePair[])[],
  bands: readonly NamedBand[],
): { comparisons: CurveComparison[]; looked: number } {
  const sound = pairs.map((curves) => curves.map(withoutZeros).filter(hasOverlap));
  const looked = sound.flat().reduce((sum, pair) => sum + lookedAt(pair, bands), 0);
  const factorOf = simultaneousFactor(looked);
  return { comparisons: sound.map((curves) => compared(curves, bands, factorOf)), looked };
}

const withoutZeros = (pair: CurvePair): CurvePair => ({
  ...pair,
  first: positiveCurve(pair.first),
  second: positiveCurve(pair.second),
});

const placesOf = ({ first, second, along }: CurvePair) => sharedPlaces(first.axis, second.axis, along);
const hasOverlap = (pair: CurvePair) => placesOf(pair).length > 1;

function lookedAt(pair: CurvePair, bands: readonly NamedBand[]): number {
  return placesOf(pair).length + (pair.along === 'frequency' ? bands.length : 0);
}

function simultaneousFactor(looked: number): FactorOf {
  const known = new Map<number, number>();
  return (freedom) => {
    const factor = known.get(freedom) ?? studentExceeded(chance / Math.max(1, looked), freedom);
    known.set(freedom, factor);
    return factor;
  };
}

function compared(
  curves: readonly CurvePair[],
  bands: readonly NamedBand[],
  factorOf: FactorOf,
): CurveComparison {
  const read = curves.map((pair) => ({
    pair: { figure: pair.first.figure.id, along: pair.along, held: pair.held },
    one: curveReader(pair.first, factorOf),
    other: curveReader(pair.second, factorOf),
  }));
  return {
    rankings: read.map(({ pair, one, other }) => rankingOf(pair, one, other)),
    bands: read
      .filter(({ pair }) => pair.along === 'frequency')
      .flatMap(({ pair, one, other }) => bands.map((band) => ({ ...pair, ...bandPair(band, one, other) }))),
  };
}

function bandPair({ name, band }: NamedBand, one: CurveReader, other: CurveReader) {
  const shared: [number, number] = [
    Math.max(band[0], one.range[0], other.range[0]),
    Math.min(band[1], one.range[1], other.range[1]),
  ];
  if (shared[1] < 2 * shared[0] * (1 - 1e-3)) return { name, band, pair: null };
  return { name, band: shared, pair: placePair(shared[0], one.mean(shared), other.mean(shared)) };
}
