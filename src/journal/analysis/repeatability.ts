import { declaredMeasured, declares, type Figure, type Measured, sizeSuits } from '../../figures/index.ts';
import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { captureName } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData, RepeatabilityData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import { repeatabilityMessages as messages } from './repeatability-messages.ts';

/** The figures of a capture, each with the scatter that its log declares for it. */
export function capturedFigures({
  figures,
  repeatability,
}: Pick<CaptureRecord, 'figures' | 'repeatability'>): Measured[] {
  return figures.map((figure) => declaredMeasured(figure, repeatability));
}

interface Task {
  record: RawRecord<LogData>;
  captures: readonly CaptureRecord[];
}

/** Captures with the repeatability that their log declares; a fault stands at the entry that it is about. */
export function withRepeatability(
  record: RawRecord<LogData>,
  captures: readonly CaptureRecord[],
): { captures: CaptureRecord[]; problems: Problem[] } {
  const { repeatability } = record.data;
  const task = { record, captures };
  const problems = repeatability.flatMap((data, index) => [
    ...captureFaults(task, data, index),
    ...data.figures.flatMap((_, position) => figureFaults(task, data, [index, position])),
  ]);
  return {
    captures: captures.map((capture) => ({
      ...capture,
      repeatability: repeatability.filter((data) => holdsFor(data, capture.name)),
    })),
    problems,
  };
}

const holdsFor = ({ of }: Pick<RepeatabilityData, 'of'>, name: string): boolean => of?.includes(name) ?? true;

function captureFaults({ record }: Task, { of = [] }: RepeatabilityData, index: number): Problem[] {
  const declared = record.data.captures.map(captureName);
  return of.flatMap((name, position) => {
    if (declared.includes(name)) return [];
    const place = record.yaml.placeOf(['repeatability', index, 'of', position]);
    return [problemAt(place, messages.noCapture(name, nearestNames(name, declared), declared))];
  });
}

/** What is wrong with one figure of a declaration: none of its captures has it, it has one already, or another unit. */
function figureFaults(
  task: Task,
  data: RepeatabilityData,
  [index, position]: readonly [number, number],
): Problem[] {
  const { yaml } = task.record;
  const place = yaml.placeOf(['repeatability', index, 'figures', position]);
  const id = data.figures[position] ?? '';
  const about = task.captures.filter(({ name }) => holdsFor(data, name));
  const ids = [...new Set(about.flatMap(({ figures }) => figures.map((figure) => figure.id)))];
  if (!ids.some((one) => declares({ figures: [id] }, one))) {
    const known = [...ids, 'harmonics'];
    return isRead(task, data) ? [problemAt(place, messages.noFigure(id, nearestNames(id, known), ids))] : [];
  }
  const twice = about.find((capture) => isDeclared(capture, id, earlierThan(task, [index, position])));
  if (twice) return [problemAt(place, messages.twice(id, twice.name))];
  const figures = about.flatMap((capture) =>
    capture.figures.filter((one) => declares({ figures: [id] }, one.id)),
  );
  const unsuited = figures.find((figure) => !sizeSuits(data.size.unit, figure));
  if (!unsuited) return [];
  const key = data.stated === 'standard deviation' ? 'deviation' : 'interval';
  const wanted = unitOf(unsuited);
  return [problemAt(yaml.placeOf(['repeatability', index, key]), messages.unit(unsuited.id, wanted))];
}

/** True where every capture that a declaration is about could be read; the others are told elsewhere. */
function isRead({ record, captures }: Task, data: RepeatabilityData): boolean {
  const wanted = data.of ?? record.data.captures.map(captureName);
  return wanted.every((name) => captures.some((capture) => capture.name === name));
}

/** Everything that is declared ahead of one figure of one entry. */
function earlierThan({ record }: Task, [index, position]: readonly [number, number]): RepeatabilityData[] {
  return record.data.repeatability
    .slice(0, index + 1)
    .map((data, i) => (i < index ? data : { ...data, figures: data.figures.slice(0, position) }));
}

function isDeclared(
  { name, figures }: CaptureRecord,
  id: string,
  earlier: readonly RepeatabilityData[],
): boolean {
  const before = earlier.filter((data) => holdsFor(data, name));
  const named = figures.filter((figure) => declares({ figures: [id] }, figure.id));
  return named.some((figure) => before.some((one) => declares(one, figure.id)));
}

/** The unit that a size in the figure's own unit has; null where only a share of the value will do. */
const unitOf = ({ unit }: Pick<Figure, 'unit'>): string | null => (unit === '1' || unit === '' ? null : unit);
