import {
  briefFigures,
  type Figure,
  type FigureDifference,
  figureDifference,
  isContested,
  type Measured,
  repeatedMeasured,
  type ScatterBasis,
} from '../figures/index.ts';
import { capturedFigures } from '../journal/analysis/repeatability.ts';
import { termsOf } from '../journal/claims/figure-terms.ts';
import type { CaptureRecord, Log, Version } from '../journal/types.ts';
import { conditionsOf, newestAlike } from './alike.ts';

/** A capture, or repeats that stand for theirs. */
export interface Source {
  title: string;
  /** Id of the record that shows it, and the place on its page. */
  page: string;
  anchor: string;
  capture: CaptureRecord;
  measured: readonly Measured[];
}

/** One figure on both sides, and what may be said about it. */
export interface DifferenceRow {
  before: Figure;
  after: Figure;
  difference: FigureDifference;
}

/** Two measurements that can be compared, figure by figure. */
export interface MeasuredDifferences {
  before: Source;
  after: Source;
  /** Of which side the scatter is known, and of which it is declared, for all rows but those that say otherwise. */
  basis: ScatterBasis;
  rows: DifferenceRow[];
}

/**
 * Differences between what was measured on a version and on the one it follows: captures, or repeats in the place of
 * theirs, of one kind, instrument, load, level, frequency and settings of the analysis; channels of one role. Of many
 * captures of a version that differ in no condition the newest stands for all.
 */
export function measuredDifferences(
  logs: readonly Log[],
  version: Pick<Version, 'id'>,
  followed: Pick<Version, 'id'>,
): MeasuredDifferences[] {
  const after = newestAlike(sourcesOfVersion(logs, version)).kept;
  return newestAlike(sourcesOfVersion(logs, followed)).kept.flatMap((before) =>
    after
      .filter((one) => conditionsOf(before.capture) === conditionsOf(one.capture))
      .map((one) => pairOf(before, one))
      .filter(({ rows }) => rows.length > 0),
  );
}

/** What was measured on a version, the oldest first. */
export const sourcesOfVersion = (logs: readonly Log[], { id }: Pick<Version, 'id'>): Source[] =>
  logs
    .toReversed()
    .filter(({ captures }) => captures.some(({ version }) => version === id))
    .flatMap(sourcesOf)
    .filter(({ capture }) => capture.version === id);

/** Two measurements figure by figure, of channels that play the same part. */
export function pairOf(before: Source, after: Source, partOf = roleOf): MeasuredDifferences {
  const rows = rowsOf(before, after, partOf);
  const known = rows.map(({ difference }) => difference).find(({ scatter }) => scatter !== 'neither');
  return { before, after, rows, basis: known ?? { scatter: 'neither', declared: 'neither' } };
}

/** The captures of a log, repeats in the place of theirs. */
export function sourcesOf({ id, captures, repeats }: Log): Source[] {
  const ofRepeats = repeats.flatMap(({ data, anchor, captures: [capture], repeated }): Source[] =>
    capture
      ? [{ title: data.title, page: id, anchor, capture, measured: repeated.map(repeatedMeasured) }]
      : [],
  );
  const repeating = new Set(repeats.flatMap((one) => one.captures.map(({ name }) => name)));
  const singles = captures
    .filter(({ name }) => !repeating.has(name))
    .map((capture) => ({
      ...{ title: capture.data.title, page: capture.id, anchor: 'summary', capture },
      measured: capturedFigures(capture),
    }));
  return [...singles, ...ofRepeats];
}

/** The figures that a reader asks for first and that a side has, of channels that play the same part on both sides. */
function rowsOf(before: Source, after: Source, partOf: typeof roleOf): DifferenceRow[] {
  const others = shownOf(after);
  return shownOf(before).flatMap((first): DifferenceRow[] => {
    const role = partOf(before, first.figure);
    const second = others.find(
      ({ figure }) => figure.id === first.figure.id && partOf(after, figure) === role,
    );
    if (!second || role === 'stimulus') return [];
    if (first.figure.value === null && second.figure.value === null) return [];
    const difference = differenceOf(before, after, first, second);
    return [{ before: first.figure, after: second.figure, difference }];
  });
}

/** Figures on different terms are two quantities of one name, and have no difference. */
function differenceOf(before: Source, after: Source, first: Measured, second: Measured): FigureDifference {
  const difference = figureDifference(first, second);
  const [one, other] = [termsOf(first.figure, before.capture), termsOf(second.figure, after.capture)];
  if (one === other || difference.verdict === 'no data') return difference;
  const absent = `They are taken on different terms: ${one}, and ${other}.`;
  const { scatter, declared } = difference;
  return { verdict: 'no data', scatter, declared, value: null, decibels: null, absent };
}

/** What the generator decides, not the amplifier. */
const ofGenerator = /^(fundamental|lower-tone|upper-tone)-frequency$/;

function shownOf({ measured }: Source): Measured[] {
  const brief = new Set(briefFigures(measured.map(({ figure }) => figure)));
  return measured.filter(
    ({ figure }) => brief.has(figure) && !isContested(figure) && !ofGenerator.test(figure.id),
  );
}

/** The part that a figure's channel plays; channels that are not alone in theirs are told apart by name. */
export function roleOf({ capture: { capture } }: Source, { subject }: Figure): string {
  const role = capture.columns.find(({ name }) => name === subject)?.role ?? 'response';
  const alike = capture.columns.filter((column) => !column.axis && (column.role ?? 'response') === role);
  return alike.length > 1 && role !== 'stimulus' ? `${role} ${subject ?? ''}` : role;
}
