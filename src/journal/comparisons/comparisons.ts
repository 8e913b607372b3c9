import {
  type CurveComparison,
  compareCurves,
  type Finding,
  findingsOf,
  type LevelTrim,
} from '../../compare/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import type { RawRecord } from '../records.ts';
import type { ComparisonData, ListeningData, PartData } from '../schemas/index.ts';
import type { Comparison, ListeningSession, Prose } from '../types.ts';
import {
  type ComparedCaptures,
  comparedCaptures,
  conditionProblems,
  controlProblems,
} from './compared-conditions.ts';
import { comparedLevels } from './compared-levels.ts';
import { type ComparedAlternative, type ComparedLogs, comparedAlternatives } from './compared-sources.ts';
import { curvePairs, unpairedSweeps } from './compared-views.ts';
import { type CriteriaMatrix, criteriaMatrix } from './comparison-criteria.ts';
import { comparisonMessages as messages } from './comparison-messages.ts';

/** Two alternatives of a comparison, and what can be said about them. */
export interface ComparedPair {
  first: ComparedAlternative;
  second: ComparedAlternative;
  captures: ComparedCaptures[];
  curves: CurveComparison;
  findings: Finding[];
  levels: LevelTrim | null;
  /** What must be said beside everything about the two, in full sentences. */
  cautions: string[];
}

/** What a comparison comes to. */
export interface Compared {
  alternatives: ComparedAlternative[];
  pairs: ComparedPair[];
  /** How many readings the chance of a finding is spread over. */
  looked: number;
  matrix: CriteriaMatrix;
}

interface ComparisonContext {
  logs: ComparedLogs;
  sessions: readonly ListeningSession[];
  parts: readonly { id: string; data: PartData }[];
  proseOf(record: RawRecord<unknown>): Prose;
}

/** Joins every comparison with its captures and what they say; newest first. */
export function resolveComparisons(
  records: readonly RawRecord<ComparisonData>[],
  context: ComparisonContext,
): { comparisons: Comparison[]; problems: Problem[] } {
  const resolved = records.map((record) => resolveComparison(record, context));
  const comparisons = resolved.map(({ comparison }) => comparison);
  return {
    comparisons: comparisons.sort((a, b) => (a.data.date < b.data.date ? 1 : -1)),
    problems: resolved.flatMap(({ problems }) => problems),
  };
}

function resolveComparison(
  record: RawRecord<ComparisonData>,
  { logs, sessions, parts, proseOf }: ComparisonContext,
): { comparison: Comparison; problems: Problem[] } {
  const { id, file, data } = record;
  const found = comparedAlternatives(record, logs);
  const two = pairsOf(found.alternatives);
  const curvesOf = two.map(([one, other]) => curvePairs(one, other));
  const { comparisons, looked } = compareCurves(curvesOf, data.bands);
  const dates = new Map(logs.map((log) => [log.id, log.data.date]));
  const problems: Problem[] = [...found.problems];
  const pairs = two.map((pair, i): ComparedPair => {
    const [first, second] = pair;
    const captures = comparedCaptures(first, second, data, dates);
    const unpaired = unpairedSweeps(first, second, curvesOf[i] ?? []);
    const faults = [
      ...conditionProblems(record, pair, captures),
      ...controlProblems(record, pair),
      ...unpaired.map((kind) => levelProblem(record, pair, kind)),
    ];
    problems.push(...faults);
    const curves = comparisons[i] ?? { rankings: [], bands: [] };
    const findings = findingsOf(curves, [first.data.title, second.data.title]);
    const cautions = faults.map(({ message }) => message);
    return { first, second, captures, curves, findings, levels: comparedLevels(first, second), cautions };
  });
  const partData = new Map(parts.map((part) => [part.id, part.data]));
  const { matrix, ...criteria } = criteriaMatrix(record, {
    ...{ alternatives: found.alternatives, sessions, parts: partData },
  });
  problems.push(...criteria.problems);
  const compared = { alternatives: found.alternatives, pairs, looked, matrix };
  return { comparison: { id, file, data, prose: proseOf(record), compared }, problems };
}

function levelProblem(
  { data, yaml }: RawRecord<ComparisonData>,
  [one, other]: readonly [ComparedAlternative, ComparedAlternative],
  kind: string,
): Problem {
  const place = yaml.placeOf(['alternatives', data.alternatives.indexOf(other.data), 'captures']);
  return problemAt(place, messages.noEqualLevel(one.data.id, other.data.id, kind));
}

const pairsOf = <T>(items: readonly T[]): [T, T][] =>
  items.flatMap((one, i) => items.slice(i + 1).map((other): [T, T] => [one, other]));

/** Checks that a listening session calls its alternatives as the comparison does that it belongs to. */
export function checkSessions(
  sessions: readonly RawRecord<ListeningData>[],
  comparisons: readonly RawRecord<ComparisonData>[],
): Problem[] {
  return sessions.flatMap(({ data, yaml }) => {
    const comparison = comparisons.find(({ id }) => id === data.comparison);
    if (!comparison) return [];
    const known = comparison.data.alternatives.map(({ id }) => id);
    return data.alternatives.flatMap(({ id }, index) =>
      known.includes(id)
        ? []
        : [
            problemAt(
              yaml.placeOf(['alternatives', index, 'id']),
              messages.otherAlternative(id, comparison.id, known),
            ),
          ],
    );
  });
}
