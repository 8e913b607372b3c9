import {
  definitionOf,
  type Figure,
  type FigureDifference,
  figureDifference,
  type Measured,
} from '../figures/index.ts';
import { type Margin, moved } from './margin.ts';

/** What a claim says of a figure with respect to what it is compared with. */
export type Relation = 'lower' | 'higher' | 'within' | 'equal';

/** What captures and sheets say about a claim. */
export type Outcome = 'holds' | 'does not hold' | 'cannot be told apart' | 'no data';

/** What is claimed; `margin` is null where any difference counts. `within` has one, `equal` has none. */
export interface Claim {
  relation: Relation;
  margin: Margin | null;
}

/** The figure that a claim is about beside what it is compared with, at one place of a sweep or without one. */
export interface ClaimPair {
  /** "1.00 kHz"; null where the figure is not read from a sweep at one place. */
  at: string | null;
  /** "25.0 Hz to 80.0 Hz", of a mean over a band. */
  mean?: string;
  of: Measured;
  reference: Measured;
}

/** A claim held against figures. */
export interface Judgement {
  outcome: Outcome;
  /** The pair that decides: over a band, the first one with the outcome of the whole. */
  decisive: {
    at: string | null;
    mean?: string;
    of: Figure;
    reference: Figure;
    difference: FigureDifference;
  } | null;
  /** How many places were looked at, and how many of them have the outcome. */
  places: number;
  alike: number;
  /** Why there are no data. */
  absent?: string;
}

/** A figure that is exactly what it says: a stated value, or one computed from a record's own numbers. */
export function exactly(figure: Figure): Measured {
  const { value } = figure;
  const bounds = value === null ? {} : { low: value, high: value, random: 0 };
  return { figure: { ...figure, ...bounds }, count: 1, repeatability: null };
}

/** A figure as it is printed: one that is exactly what it says has no interval. */
export function asShown({ low, high, ...figure }: Figure): Figure {
  return low === undefined || high === undefined || low === high ? figure : { ...figure, low, high };
}

/** The judgement where nothing can be compared. */
export const noData = (absent: string): Judgement => ({
  ...{ outcome: 'no data', decisive: null, places: 0, alike: 0, absent },
});

/**
 * Holds a claim against one pair of figures, or against every pair of a band. With a margin the reference is moved by
 * it first, interval and scatter with it, so that a claim holds only where what it asks for is itself told apart.
 * Over a band it holds where it holds everywhere, and does not hold where it fails anywhere. Equality is never shown.
 *
 * @source the verdicts of `figureDifference`.
 */
export function judgeClaim(claim: Claim, pairs: readonly ClaimPair[]): Judgement {
  const outcomes = pairs.map((pair) => outcomeOf(claim, pair));
  const outcome = together(outcomes);
  const index = outcomes.indexOf(outcome);
  const pair = pairs[index];
  if (!pair) return noData('There is nothing to compare.');
  const { of, reference, ...place } = pair;
  const difference = figureDifference(reference, of);
  return {
    outcome,
    decisive: { ...place, of: of.figure, reference: reference.figure, difference },
    places: pairs.length,
    alike: outcomes.filter((one) => one === outcome).length,
    ...(difference.absent === undefined ? {} : { absent: difference.absent }),
  };
}

/** True where a claim is borne out; one of equality is as long as no difference shows between bounded figures. */
export function isBorneOut({ relation }: Claim, { outcome, decisive }: Judgement): boolean {
  if (relation !== 'equal') return outcome === 'holds';
  return outcome === 'cannot be told apart' && decisive?.difference.low !== undefined;
}

const gravest: readonly Outcome[] = ['no data', 'does not hold', 'cannot be told apart', 'holds'];

const together = (outcomes: readonly Outcome[]): Outcome =>
  gravest.find((outcome) => outcomes.includes(outcome)) ?? 'no data';

function outcomeOf({ relation, margin }: Claim, { of, reference }: ClaimPair): Outcome {
  const beside = (direction: -1 | 1) => sideOf(figureDifference(moved(reference, margin, direction), of));
  switch (relation) {
    case 'lower':
      return oneSided(beside(-1), 'below');
    case 'higher':
      return oneSided(beside(1), 'above');
    case 'within':
      return between(beside(-1), beside(1));
    case 'equal':
      return differs(beside(1));
  }
}

type Side = 'below' | 'above' | 'unknown' | 'no data';

/** On which side of a first figure a second one is told to be. */
function sideOf({ verdict, value }: FigureDifference): Side {
  if (verdict === 'no data') return 'no data';
  if (verdict === 'cannot be told apart' || value === null) return 'unknown';
  return value < 0 ? 'below' : 'above';
}

function oneSided(side: Side, wanted: 'below' | 'above'): Outcome {
  if (side === 'no data') return 'no data';
  if (side === 'unknown') return 'cannot be told apart';
  return side === wanted ? 'holds' : 'does not hold';
}

function between(fromLower: Side, fromUpper: Side): Outcome {
  if (fromLower === 'no data' || fromUpper === 'no data') return 'no data';
  if (fromLower === 'below' || fromUpper === 'above') return 'does not hold';
  return fromLower === 'above' && fromUpper === 'below' ? 'holds' : 'cannot be told apart';
}

function differs(side: Side): Outcome {
  if (side === 'no data') return 'no data';
  return side === 'unknown' ? 'cannot be told apart' : 'does not hold';
}

/** The unit a stated value or an amount must have to stand beside a figure; '1' for figures in per cent. */
export function unitOf({ id, unit }: Pick<Figure, 'id' | 'unit'>): string {
  const display = definitionOf(id)?.display;
  return display === 'percent' ? '1' : display === 'decibel' ? 'dB' : unit;
}
