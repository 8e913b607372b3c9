import { summariseRepeats } from '../../figures/index.ts';
import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { captureName } from '../ids.ts';
import type { RawRecord } from '../records.ts';
import type { LogData, RepeatData } from '../schemas/index.ts';
import type { CaptureRecord, Repeats } from '../types.ts';
import { repeatMessages as messages } from './repeat-messages.ts';

interface Task {
  record: RawRecord<LogData>;
  captures: readonly CaptureRecord[];
}

/** Joins the captures that a log declares as repeats; a fault stands at the entry that it is about. */
export function resolveRepeats(
  record: RawRecord<LogData>,
  captures: readonly CaptureRecord[],
): { repeats: Repeats[]; problems: Problem[] } {
  const task = { record, captures };
  const found = record.data.repeats.map((data, index) => ({
    data,
    problems: [...nameFaults(task, data, index), ...data.of.flatMap((_, i) => memberFaults(task, index, i))],
  }));
  return {
    repeats: found.flatMap(({ data, problems }) => (problems.length === 0 ? joined(task, data) : [])),
    problems: found.flatMap(({ problems }) => problems),
  };
}

/** The repeats with their figures; none where a capture could not be read, which is told at the capture. */
function joined({ record, captures }: Task, data: RepeatData): Repeats[] {
  const members = data.of.flatMap((name) => captures.find((capture) => capture.name === name) ?? []);
  if (members.length < data.of.length) return [];
  const summary = summariseRepeats(members, { file: record.file, between: data.between });
  return [{ ...summary, data, captures: members, anchor: `repeats-${data.id}` }];
}

const declaredIn = ({ record }: Task) => record.data.captures.map(captureName);

function nameFaults(task: Task, { id }: RepeatData, index: number): Problem[] {
  const place = task.record.yaml.placeOf(['repeats', index, 'id']);
  return declaredIn(task).includes(id) ? [problemAt(place, messages.nameTaken(id))] : [];
}

function memberFaults(task: Task, index: number, position: number): Problem[] {
  const names = task.record.data.repeats[index]?.of ?? [];
  const [first = '', name = ''] = [names[0], names[position]];
  const place = task.record.yaml.placeOf(['repeats', index, 'of', position]);
  const declared = declaredIn(task);
  if (!declared.includes(name)) {
    return [problemAt(place, messages.noCapture(name, nearestNames(name, declared), declared))];
  }
  if (names.indexOf(name) < position) return [problemAt(place, messages.twice(name))];
  const copied = copyOf(task, name, names.slice(0, position));
  if (copied !== null) return [problemAt(place, messages.sameFile(name, copied))];
  const what = differences(task, name, first);
  return what.length > 0 ? [problemAt(place, messages.differs(name, first, what.join(', ')))] : [];
}

/** The first of some captures that holds the same bytes as another; null where none does. */
function copyOf({ captures }: Task, name: string, earlier: readonly string[]): string | null {
  const bytes = captures.find((capture) => capture.name === name)?.sha256;
  const same = captures.filter(({ sha256 }) => sha256 === bytes).map((capture) => capture.name);
  return earlier.find((other) => same.includes(other)) ?? null;
}

/** What two captures do not share; nothing where one of them could not be read, which is told elsewhere. */
function differences({ captures }: Task, name: string, first: string): string[] {
  const [one, other] = [first, name].map((wanted) => captures.find((capture) => capture.name === wanted));
  if (!one || !other) return [];
  const [before, after] = [declarationOf(one), declarationOf(other)];
  const keys = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...keys].filter((what) => before[what] !== after[what]);
}

/** Everything that makes two captures the same measurement, as text. */
function declarationOf({ kind, capture, data, version }: CaptureRecord): Record<string, string> {
  const { instrument, alternative, exchanged, load, impedanceOf, secondary } = data;
  const { harmonics, band, atPower, tones, ratedLoad, readingAccuracy, loudspeaker, responseSweep } = data;
  const conditions = Object.entries(data.conditions).map(([name, value]) => [
    `the condition "${name}"`,
    value,
  ]);
  const channels = capture.columns.map(({ name, unit, role }) => [name, unit, role]);
  return texts({
    ...{ kind, channels, version, instrument, alternative, exchanged, load, impedanceOf, secondary },
    ...{ harmonics, band, atPower, tones, ratedLoad, readingAccuracy, loudspeaker, responseSweep },
    ...Object.fromEntries(conditions),
  });
}

const texts = (values: Record<string, unknown>): Record<string, string> =>
  Object.fromEntries(Object.entries(values).map(([key, value]) => [key, JSON.stringify(value) ?? '']));
