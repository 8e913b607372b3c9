import { type Figure, figureDifference, singleMeasured } from '../figures/index.ts';
import { type CurveReader, type Reading, readingFigure } from './read-curve.ts';

/** Along what two curves are compared, and what is held equal meanwhile: output power, or the input voltage. */
export type Along = 'frequency' | 'power' | 'input';

/** Which of two alternatives has the lower figure. */
export type Lower = 'first' | 'second';

/** Two readings at one place. */
export interface PlacePair {
  at: number;
  /** With intervals that are apart exactly where the two are told apart. */
  first: Figure;
  second: Figure;
  /** The second over the first, with its interval where it is bounded; null without two values. */
  decibels: { value: number; low?: number; high?: number } | null;
  /** Null where they cannot be told apart. */
  lower: Lower | null;
}

/** A part of the axis on which one alternative is told to be the lower one. */
export interface Stretch {
  lower: Lower;
  from: number;
  to: number;
  /** Where the two differ most, by ratio. */
  largest: PlacePair;
}

/** Where the order changes between two stretches. */
export interface Crossing {
  /** Where the readings cross, straight between them on logarithmic axes. */
  at: number;
  /** The last place at which the one order is told, and the first at which the other is. */
  low: number;
  high: number;
}

/** The order of two alternatives along one curve. */
export interface Ranking {
  /** Id of the figure. */
  figure: string;
  along: Along;
  /** What both share over the curve: "at 1.00 W". */
  held: string;
  places: PlacePair[];
  /** Of alternating order. */
  stretches: Stretch[];
  /** One between each two stretches. */
  crossings: Crossing[];
}

/** A third of an octave of frequency, and the same ratio of voltage, which is two decibels of level. */
const leastRun: Readonly<Record<Along, number>> = {
  frequency: 2 ** (1 / 3),
  input: 2 ** (1 / 3),
  power: 2 ** (2 / 3),
};

/** The place at which a figure is usually quoted, in hertz and in watts. */
export const quotedAt: Readonly<Record<Along, number | null>> = { frequency: 1000, power: 1, input: null };

/**
 * Every place at which one of two curves has a reading, or figures are quoted, and both can be read; ascending, and
 * neighbours within 0.5 % are one.
 */
export function sharedPlaces(one: Float64Array, other: Float64Array, along: Along): number[] {
  const [low, high] = [Math.max(one[0] ?? 0, other[0] ?? 0), Math.min(one.at(-1) ?? 0, other.at(-1) ?? 0)];
  const wanted = quotedAt[along];
  const every = [...one, ...other, ...(wanted === null ? [] : [wanted])];
  const places = every.filter((at) => at >= low && at <= high).sort((a, b) => a - b);
  const kept: number[] = [];
  for (const at of places) if (at > 1.005 * (kept.at(-1) ?? 0)) kept.push(at);
  return kept;
}

/**
 * What two readings at one place allow to be said. Their intervals are narrowed together so that they are apart exactly
 * where the difference of the logarithms is more than both scatters together, root sum of squares, and more than all that
 * both instruments may be off by.
 * @source intervals of two means that are apart where the means differ: H. Goldstein, M. J. R. Healy, J. Roy. Statist.
 * Soc. A 158:175 (1995), from memory.
 */
export function placePair(at: number, one: Reading, other: Reading): PlacePair {
  const both = (one.scatter ?? 0) + (other.scatter ?? 0);
  const share = both > 0 ? Math.hypot(one.scatter ?? 0, other.scatter ?? 0) / both : 1;
  const [first, second] = [readingFigure(one, share), readingFigure(other, share)];
  const { verdict, value } = figureDifference(singleMeasured(first), singleMeasured(second));
  const isTold = verdict === 'different in these captures' && value !== null;
  const lower = isTold ? (value > 0 ? 'first' : 'second') : null;
  return { at, first, second, decibels: decibelsOf(first, second), lower };
}

function decibelsOf(first: Figure, second: Figure): PlacePair['decibels'] {
  const ratio = (above: number | undefined, below: number | undefined) =>
    20 * Math.log10((above ?? Number.NaN) / (below ?? Number.NaN));
  if (first.value === null || second.value === null) return null;
  const value = ratio(second.value, first.value);
  const [low, high] = [ratio(second.low, first.high), ratio(second.high, first.low)];
  return Number.isFinite(low) && Number.isFinite(high) ? { value, low, high } : { value };
}

/**
 * The order of two curves wherever both can be read. A stretch is a run of places, all told apart in one order, over a
 * third of an octave at least, or over two decibels of level. Nothing is extrapolated.
 */
export function rankingOf(
  { figure, along, held }: Pick<Ranking, 'figure' | 'along' | 'held'>,
  one: CurveReader,
  other: CurveReader,
): Ranking {
  const places = sharedPlaces(one.places, other.places, along).map((at) =>
    placePair(at, one.at(at), other.at(at)),
  );
  const stretches = stretchesOf(places, leastRun[along]);
  const crossings = stretches.slice(1).map((after, i) => crossingOf(places, stretches[i] ?? after, after));
  return { figure, along, held, places, stretches, crossings };
}

function stretchesOf(places: readonly PlacePair[], least: number): Stretch[] {
  const runs: PlacePair[][] = [];
  for (const place of places) {
    const run = runs.at(-1);
    if (run?.[0]?.lower === place.lower) run.push(place);
    else runs.push([place]);
  }
  const joined: Stretch[] = [];
  for (const stretch of runs.flatMap((run) => stretchOf(run, least))) {
    const last = joined.at(-1);
    if (last?.lower !== stretch.lower) joined.push(stretch);
    else joined.splice(-1, 1, { ...last, to: stretch.to, largest: larger(last.largest, stretch.largest) });
  }
  return joined;
}

function stretchOf(run: readonly PlacePair[], least: number): Stretch[] {
  const [first, last] = [run[0], run.at(-1)];
  if (!first?.lower || !last || last.at < least * first.at * (1 - 1e-3)) return [];
  return [{ lower: first.lower, from: first.at, to: last.at, largest: run.reduce(larger, first) }];
}

/** How far two readings are apart, as the logarithm of their ratio. */
export const logRatio = ({ first, second }: PlacePair): number =>
  Math.log((first.value ?? 1) / (second.value ?? 1));

const larger = (one: PlacePair, other: PlacePair) =>
  Math.abs(logRatio(other)) > Math.abs(logRatio(one)) ? other : one;

function crossingOf(places: readonly PlacePair[], before: Stretch, after: Stretch): Crossing {
  const between = places.filter(({ at }) => at >= before.to && at <= after.from);
  const next = between.findIndex((place) => logRatio(place) * logRatio(after.largest) > 0);
  const [left, right] = [between[next - 1], between[next]];
  const bracket = { low: before.to, high: after.from };
  if (!left || !right) return { at: Math.sqrt(before.to * after.from), ...bracket };
  return { at: zeroBetween(left, right), ...bracket };
}

/** Where two curves are equal between two places of opposite order, straight on logarithmic axes. */
export function zeroBetween(left: PlacePair, right: PlacePair): number {
  const share = logRatio(left) / (logRatio(left) - logRatio(right));
  return left.at * (right.at / left.at) ** share;
}
