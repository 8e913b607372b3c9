import { bandMean, pointsOf, type Weighing, weigh } from '../../compare/index.ts';
import {
  definitionOf,
  figureDifference,
  figureText,
  type Measured,
  singleMeasured,
} from '../../figures/index.ts';
import { countText, probabilityText } from '../../listening/index.ts';
import { type Fault, type Problem, problemAt } from '../../problem/index.ts';
import { parsePrice, quantityText } from '../../quantity/index.ts';
import type { RawRecord } from '../records.ts';
import type { ComparisonData, PartData } from '../schemas/index.ts';
import type { ListeningSession } from '../types.ts';
import { comparedSweeps, readColumn } from './compared-columns.ts';
import type { ComparedAlternative, ComparedSource } from './compared-sources.ts';
import { comparisonMessages as messages } from './comparison-messages.ts';

type CriterionData = ComparisonData['criteria'][number];

/** What a criterion says of one alternative, and where that is on record. */
export interface CriterionCell {
  text: string;
  page: string | null;
  anchor: string | null;
}

/** A criterion with what it says of every alternative, in their order. */
export interface JudgedCriterion {
  title: string;
  weight: number;
  cells: CriterionCell[];
  points: number[];
}

/** What the choice is made by. */
export interface CriteriaMatrix {
  criteria: JudgedCriterion[];
  /** Null where nothing has a weight. */
  weighing: Weighing | null;
}

/** What criteria are read from. */
export interface CriteriaContext {
  alternatives: readonly ComparedAlternative[];
  sessions: readonly ListeningSession[];
  parts: ReadonlyMap<string, PartData>;
}

/** Reads every criterion of a comparison; one that cannot be read is a problem at its own key. */
export function criteriaMatrix(
  { id, data, yaml }: RawRecord<ComparisonData>,
  context: CriteriaContext,
): { matrix: CriteriaMatrix; problems: Problem[] } {
  const found = data.criteria.map((criterion) => judge(criterion, id, context));
  const criteria = found.flatMap((one) => ('fault' in one ? [] : [one]));
  const problems = found.flatMap((one, index) =>
    'fault' in one ? [problemAt(yaml.placeOf(['criteria', index, one.at]), one.fault)] : [],
  );
  return { matrix: { criteria, weighing: weigh(criteria) }, problems };
}

interface Refused {
  fault: Fault;
  at: 'figure' | 'session' | 'part';
}

function judge(
  criterion: CriterionData,
  comparison: string,
  context: CriteriaContext,
): JudgedCriterion | Refused {
  if (criterion.figure !== undefined) return byFigure(criterion, criterion.figure, context);
  if (criterion.session !== undefined) return bySession(criterion, comparison, context);
  return byMaker(criterion, context);
}

interface Read {
  measured: Measured;
  source: ComparedSource;
}

function byFigure(
  { title, weight, over, better }: CriterionData,
  figure: string,
  { alternatives }: CriteriaContext,
): JudgedCriterion | Refused {
  const read = alternatives.map((alternative) =>
    over ? meanOver(alternative, figure, over) : figureOf(alternative, figure),
  );
  const missing = read.indexOf(null);
  const lacking = alternatives[missing];
  if (lacking) {
    const known = [
      ...new Set(lacking.sources.flatMap(({ measured }) => measured.map((one) => one.figure.id))),
    ];
    const fault = over
      ? messages.noSweep(figure, lacking.data.id)
      : messages.noFigure(figure, lacking.data.id, known);
    return { fault, at: 'figure' };
  }
  const sides = read.flatMap((one) => one ?? []);
  const direction = better ?? definitionOf(figure)?.better ?? null;
  if (direction === null) return { fault: messages.noDirection(figure), at: 'figure' };
  const wanted = direction === 'higher' ? 1 : -1;
  const beats = (one: number, other: number) => wanted * orderOf(sides[other], sides[one]);
  const said = over ? `, mean from ${over.map((hertz) => quantityText(hertz, 'Hz')).join(' to ')}` : '';
  return {
    ...{ title, weight, points: pointsOf(alternatives.length, beats) },
    cells: sides.map(({ measured, source }) => ({
      text: `${figureText(measured.figure)}${said}`,
      ...{ page: source.page, anchor: source.anchor },
    })),
  };
}

/** 1 where the second is told to be higher than the first, −1 where lower, 0 where they cannot be told apart. */
function orderOf(first: Read | undefined, second: Read | undefined): number {
  if (!first || !second) return 0;
  const { verdict, value } = figureDifference(first.measured, second.measured);
  return verdict === 'cannot be told apart' || verdict === 'no data' ? 0 : Math.sign(value ?? 0);
}

function figureOf({ sources }: ComparedAlternative, figure: string): Read | null {
  for (const source of sources) {
    const measured = source.measured.find((one) => one.figure.id === figure);
    if (measured) return { measured, source };
  }
  return null;
}

function meanOver(
  { sources }: ComparedAlternative,
  figure: string,
  band: readonly [number, number],
): Read | null {
  for (const sweep of comparedSweeps(sources, 'frequency-sweep')) {
    const curve = readColumn(sweep, figure, sweep.axis);
    if (curve) return { measured: singleMeasured(bandMean(curve, band)), source: sweep.source };
  }
  return null;
}

/** Only a preference says which one is better, and only where chance alone does not do as well. */
function bySession(
  { title, weight, session: id }: CriterionData,
  comparison: string,
  { alternatives, sessions }: CriteriaContext,
): JudgedCriterion | Refused {
  const session = sessions.find((one) => one.id === id && one.data.comparison === comparison);
  if (!session) return { fault: messages.otherSession(id ?? ''), at: 'session' };
  const { count, judged } = session.result;
  const [first, second] = session.data.alternatives;
  const said = countText(count, [first?.title ?? '', second?.title ?? '']);
  const chance = judged
    ? `Probability by chance alone: ${probabilityText(judged.pValue)}.`
    : 'No probability is given.';
  const preferred = 2 * count.successes > count.trials ? first?.id : second?.id;
  const isTold = count.task === 'preference' && (judged?.isShown ?? false);
  const heard = { text: `${said} ${chance}`, page: session.id, anchor: 'result' };
  const notHeard = { text: 'not in the session', page: session.id, anchor: null };
  const isHeard = (id: string) => session.data.alternatives.some((one) => one.id === id);
  const rank = (index: number) => (isTold && alternatives[index]?.data.id === preferred ? 1 : 0);
  return {
    ...{ title, weight, points: pointsOf(alternatives.length, (one, other) => rank(one) - rank(other)) },
    cells: alternatives.map(({ data }) => (isHeard(data.id) ? heard : notHeard)),
  };
}

/**
 * What the maker states. Prices of one currency order themselves, amounts of one unit where the maker says which way,
 * and anything else is for the maker to say.
 */
function byMaker(
  criterion: CriterionData,
  { alternatives, parts }: CriteriaContext,
): JudgedCriterion | Refused {
  const { title, weight, part: key, stated, prefers, better } = criterion;
  const lacking = key && alternatives.find(({ data }) => data.part === undefined);
  if (lacking) return { fault: messages.noPart(lacking.data.id), at: 'part' };
  const cells = alternatives.map(({ data }): CriterionCell => {
    const said = stated?.find(({ of }) => of === data.id);
    if (said) return { text: said.is, page: said.from, anchor: null };
    const ofPart = key && data.part !== undefined ? parts.get(data.part)?.[key] : undefined;
    const page = ofPart === undefined ? null : (data.part ?? null);
    return { text: ofPart ?? 'not stated', page, anchor: null };
  });
  const amounts = cells.map(({ text }) => amountOf(text, better !== undefined));
  const beats = (one: number, other: number) => {
    if (prefers !== undefined) return Number(isPreferred(one)) - Number(isPreferred(other));
    const [before, after] = [amounts[one], amounts[other]];
    if (!before || !after || before.unit !== after.unit) return 0;
    return Math.sign(after.amount - before.amount) * (better === 'higher' ? -1 : 1);
  };
  const isPreferred = (index: number) => alternatives[index]?.data.id === prefers;
  return { title, weight, cells, points: pointsOf(alternatives.length, beats) };
}

/** A price; or, where amounts may be told apart, a number with what stands behind it. */
function amountOf(text: string, anyUnit: boolean): { amount: number; unit: string } | null {
  const price = parsePrice(text);
  if (price) return { amount: price.amount, unit: price.currency };
  const [, number = '', unit = ''] = /^(\d+(?:[.,]\d+)?)\s*(\S+)$/.exec(text.trim()) ?? [];
  return anyUnit && number !== '' ? { amount: Number(number.replace(',', '.')), unit } : null;
}
