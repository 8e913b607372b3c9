import { type PlacePair, placeOnAxis, type Ranking, type Stretch } from '../compare/index.ts';
import { type PrintedFigure, printFigure } from '../figures/index.ts';
import type { ComparedPair } from '../journal/comparisons/comparisons.ts';
import type { Comparison, Journal } from '../journal/types.ts';
import { type MeasuredDifferences, pairOf } from './measured-differences.ts';

type Compared = Pick<Journal, 'comparisons'>;

/** Comparisons in which a capture was set beside another. */
export const comparisonsWith = (capture: string, { comparisons }: Compared): Comparison[] =>
  comparisons.filter((one) => capturesOf(one).includes(capture));

/** Comparisons that name captures of a log. */
export const comparisonsFrom = (log: string, { comparisons }: Compared): Comparison[] =>
  comparisons.filter((one) => capturesOf(one).some((id) => id.startsWith(`${log}/`)));

/** Comparisons in which a version was an alternative. */
export const comparisonsOf = (version: string, { comparisons }: Compared): Comparison[] =>
  comparisons.filter(({ data }) => data.alternatives.some((one) => one.version === version));

/** Comparisons that a part was an alternative in. */
export const comparisonsOfPart = (part: string, { comparisons }: Compared): Comparison[] =>
  comparisons.filter(({ data }) => data.alternatives.some((one) => one.part === part));

const capturesOf = ({ compared }: Comparison): string[] =>
  compared.alternatives.flatMap(({ sources }) => sources.flatMap(({ captures }) => captures));

/** Titles of the two alternatives of a pair. */
export const titlesOf = ({ first, second }: Pick<ComparedPair, 'first' | 'second'>): [string, string] => [
  first.data.title,
  second.data.title,
];

/** Captures of the two alternatives figure by figure; the sides are the channels that carry them. */
export const comparedFigures = ({ captures }: ComparedPair): MeasuredDifferences[] =>
  captures
    .map(({ first, second }) => pairOf(first, second, () => 'response'))
    .filter(({ rows }) => rows.length > 0);

/** The difference of two readings in decibels, with the interval that holds together with all others. */
export function decibelText({ decibels }: PlacePair): PrintedFigure | null {
  return decibels && printFigure({ id: 'sinad', unit: 'dB', ...decibels });
}

/** "from 25.2 Hz to 20.0 kHz". */
export const stretchText = ({ from, to }: Stretch, { along }: Ranking): string =>
  `${placeOnAxis(from, along)} to ${placeOnAxis(to, along)}`;
