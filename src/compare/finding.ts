import { definitionOf, type Figure, figureText } from '../figures/index.ts';
import { printNumber, quantityText } from '../quantity/index.ts';
import type { CurveComparison } from './comparison.ts';
import {
  type Along,
  type Lower,
  logRatio,
  type PlacePair,
  quotedAt,
  type Ranking,
  type Stretch,
  zeroBetween,
} from './ranking.ts';

/** Titles of the first and of the second alternative. */
export type TwoTitles = readonly [string, string];

/** What a comparison says in one sentence. */
export interface Finding {
  /**
   * `headline`: the figure that everybody quotes. `change`: the order changes along a curve. `against the headline`: a
   * curve whose order is another one than the headline’s. `same order`: curves that agree with it. `not told`: curves
   * of which nothing can be said.
   */
  kind: 'headline' | 'change' | 'against the headline' | 'same order' | 'not told';
  text: string;
}

/** What the headline is read from. */
export interface Headline {
  ranking: Ranking;
  pair: PlacePair;
}

/** Total distortion at 1 kHz; without a frequency sweep that reaches it, at 1 W of a level sweep; null without either. */
export function headlineOf({ rankings }: CurveComparison): Headline | null {
  const total = rankings.filter(({ figure }) => figure === 'thd' || figure === 'thd-plus-noise');
  for (const along of ['frequency', 'power'] as const) {
    for (const ranking of total.filter((one) => one.along === along)) {
      const pair = nearest(ranking, quotedAt[along] ?? 0);
      if (pair) return { ranking, pair };
    }
  }
  return null;
}

/** The place of a curve next to a wanted one; null where the curve does not reach that. */
function nearest({ places }: Ranking, wanted: number): PlacePair | null {
  const [first, last] = [places[0], places.at(-1)];
  if (!first || !last || first.at > 1.02 * wanted || last.at < wanted / 1.02) return null;
  const distance = ({ at }: PlacePair) => Math.abs(Math.log(at / wanted));
  return places.reduce((best, place) => (distance(place) < distance(best) ? place : best), first);
}

/** Every sentence about two alternatives: the headline, then each change of ranking, then what remains. */
export function findingsOf(comparison: CurveComparison, titles: TwoTitles): Finding[] {
  const headline = headlineOf(comparison);
  const lower = headline?.pair.lower ?? null;
  const told = comparison.rankings.filter(({ stretches }) => stretches.length > 0);
  const untold = comparison.rankings.filter(({ stretches }) => stretches.length === 0);
  const isChange = ({ crossings }: Ranking) => crossings.length > 0;
  const isOther = ({ stretches }: Ranking) => stretches[0]?.lower !== lower;
  const changes = told.filter(isChange);
  const steady = told.filter((ranking) => !isChange(ranking));
  return [
    ...(headline ? [{ kind: 'headline' as const, text: headlineText(headline, titles) }] : []),
    ...changes.map((ranking) => ({ kind: 'change' as const, text: rankingText(ranking, titles) })),
    ...steady.filter(isOther).map((ranking) => ({
      kind: headline?.pair.lower ? ('against the headline' as const) : ('change' as const),
      text: rankingText(ranking, titles),
    })),
    ...listing(
      'same order',
      'The same order wherever they can be told apart',
      steady.filter((one) => !isOther(one)),
    ),
    ...listing('not told', 'Cannot be told apart anywhere', untold.filter(hasIntervals)),
    ...listing(
      'not told',
      'Too few readings to know their scatter, so that nothing is told',
      untold.filter((one) => !hasIntervals(one)),
    ),
  ];
}

const totals: Readonly<Record<string, string>> = { thd: 'Total distortion' };

/** A figure’s name in a sentence: "Total distortion", "Third harmonic". */
const nameOf = (id: string) => totals[id] ?? definitionOf(id)?.name ?? id;

/** A place as it is printed: "1.00 kHz". */
export function placeOnAxis(at: number, along: Along): string {
  return quantityText(at, { frequency: 'Hz', power: 'W', input: 'V' }[along]);
}

const titleOf = (lower: Lower, [first, second]: TwoTitles) => (lower === 'first' ? first : second);

function headlineText({ ranking, pair }: Headline, titles: TwoTitles): string {
  const { at, first, second, lower } = pair;
  const where = `${nameOf(ranking.figure)} at ${placeOnAxis(at, ranking.along)}`;
  const favoured = logRatio(pair) < 0 ? 'first' : 'second';
  const [less, more] = (favoured === 'first' ? [first, second] : [second, first]).map(valueText);
  if (logRatio(pair) === 0) return `${where} is the same with both, ${less}.`;
  if (lower === null)
    return `${where} favours ${titleOf(favoured, titles)}, ${less} against ${more}, inside the uncertainty.`;
  return `${where} is lower with ${titleOf(lower, titles)}: ${less} against ${more}.`;
}

const valueText = ({ low: _low, high: _high, ...figure }: Figure) => figureText(figure);

/** The order along one curve, stretch by stretch. */
export function rankingText(ranking: Ranking, titles: TwoTitles): string {
  const { along, stretches } = ranking;
  const parts = stretches.map(
    (stretch, i) =>
      `${stretchPlace(ranking, i)} ${titleOf(stretch.lower, titles)} is lower, ${sizeText(stretch, along)}`,
  );
  return `${curveName(ranking)}: ${[...parts, ...openCrossings(ranking)].join('; ')}.`;
}

/** Crossings of the readings beyond the outermost stretches, of which only one side is told. */
function openCrossings({ along, places, stretches }: Ranking): string[] {
  const [from, to] = [stretches[0]?.from ?? 0, stretches.at(-1)?.to ?? 0];
  const sides = [
    { part: places.filter(({ at }) => at <= from), side: 'below', bound: from },
    { part: places.filter(({ at }) => at >= to), side: 'above', bound: to },
  ];
  return sides.flatMap(({ part, side, bound }) => {
    const crossed = crossingsOf(part);
    const [only] = crossed;
    if (only === undefined || crossed.length > 1) return [];
    const place = placeOnAxis(only, along);
    return [`the readings cross at ${place}, which is only told to lie ${side} ${placeOnAxis(bound, along)}`];
  });
}

const crossingsOf = (places: readonly PlacePair[]): number[] =>
  places.slice(1).flatMap((right, i) => {
    const left = places[i];
    return left && logRatio(left) * logRatio(right) < 0 ? [zeroBetween(left, right)] : [];
  });

/** Where a stretch lies: "below 150 Hz (between 140 Hz and 163 Hz)", "above 150 Hz", "from 1.00 kHz to 5.00 kHz". */
function stretchPlace({ along, places, stretches, crossings }: Ranking, index: number): string {
  const place = (at: number) => placeOnAxis(at, along);
  const stretch = stretches[index];
  const [before, after] = [crossings[index - 1], crossings[index]];
  const from = before?.at ?? stretch?.from ?? 0;
  const to = after?.at ?? stretch?.to ?? 0;
  const known = after ? ` (between ${place(after.low)} and ${place(after.high)})` : '';
  const isFirst = !before && from === places[0]?.at;
  const isLast = !after && to === places.at(-1)?.at;
  if (isFirst && after) return `below ${place(to)}${known}`;
  if (before && isLast) return `above ${place(from)}`;
  return `from ${place(from)} to ${place(to)}${known}`;
}

/** "by a factor of 4.00 at 40.0 Hz"; smaller ratios in decibels. */
function sizeText({ largest }: Stretch, along: Along): string {
  const ratio = Math.exp(Math.abs(logRatio(largest)));
  const place = placeOnAxis(largest.at, along);
  if (ratio >= 2) return `by a factor of ${printNumber(ratio)} at ${place}`;
  return `by ${quantityText(20 * Math.log10(ratio), 'dB')} at ${place}`;
}

const hasIntervals = ({ places }: Ranking): boolean =>
  places.some(({ first, second }) => first.low !== undefined && second.low !== undefined);

/** One sentence for curves of which the same can be said, those over one axis together. */
function listing(kind: Finding['kind'], opening: string, rankings: readonly Ranking[]): Finding[] {
  if (rankings.length === 0) return [];
  const axes = new Map<string, string[]>();
  for (const ranking of rankings) {
    const axis = axisName(ranking);
    axes.set(axis, [...(axes.get(axis) ?? []), nameOf(ranking.figure)]);
  }
  const groups = [...axes].map(([axis, names]) => `${listed(names.map(inSentence))} ${axis}`);
  return [{ kind, text: `${opening}: ${groups.join('; ')}.` }];
}

/** A name within a sentence; abbreviations keep their capitals. */
const inSentence = (name: string) =>
  /^\p{Lu}{2}/u.test(name) ? name : name.charAt(0).toLowerCase() + name.slice(1);

const listed = (names: readonly string[]) =>
  names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;

const axisName = ({ along, held }: Pick<Ranking, 'along' | 'held'>): string =>
  [`against ${axisNames[along]}`, held].filter(Boolean).join(' ');

/** "Second harmonic against frequency at 1.00 W". */
export const curveName = (ranking: Pick<Ranking, 'figure' | 'along' | 'held'>): string =>
  `${nameOf(ranking.figure)} ${axisName(ranking)}`;

const axisNames: Readonly<Record<Along, string>> = {
  frequency: 'frequency',
  power: 'output power',
  input: 'input voltage',
};
