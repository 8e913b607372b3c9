import { nearestNames, type Problem, problemAt } from '../problem/index.ts';
import { captureName } from './ids.ts';
import { messages } from './messages.ts';
import type { RawRecord } from './records.ts';
import type { LogData } from './schemas/index.ts';
import type { CaptureRecord, Log } from './types.ts';

type Chosen = { keyFigure: Log['keyFigures'][number] } | { problem: Problem } | null;

/** Finds the figures that a log puts at its top; one that does not exist is a problem at its line. */
export function chooseKeyFigures(
  record: RawRecord<LogData>,
  captures: readonly CaptureRecord[],
): { keyFigures: Log['keyFigures']; problems: Problem[] } {
  const chosen = record.data.keyFigures.map((_, index) => choose(record, index, captures));
  return {
    keyFigures: chosen.flatMap((choice) => (choice && 'keyFigure' in choice ? [choice.keyFigure] : [])),
    problems: chosen.flatMap((choice) => (choice && 'problem' in choice ? [choice.problem] : [])),
  };
}

/** One key figure; null where its capture is declared but could not be read, which is told elsewhere. */
function choose(
  { data, yaml }: RawRecord<LogData>,
  index: number,
  captures: readonly CaptureRecord[],
): Chosen {
  const { figure: id = '', of = '' } = data.keyFigures[index] ?? {};
  const [name = '', channel] = of.split('#');
  const place = (key: string) => yaml.placeOf(['keyFigures', index, key]);
  const declared = data.captures.map(captureName);
  if (!declared.includes(name)) {
    return { problem: problemAt(place('of'), messages.figureForm(of, nearestNames(name, declared))) };
  }
  const capture = captures.find((candidate) => candidate.name === name);
  if (!capture) return null;
  const candidates = capture.figures.filter(({ subject }) => channel === undefined || subject === channel);
  const figure = candidates.find((candidate) => candidate.id === id);
  if (figure) return { keyFigure: { capture, figure } };
  if (channel !== undefined && candidates.length === 0) {
    return { problem: problemAt(place('of'), messages.unknownColumn(channel, subjectsOf(capture))) };
  }
  const known = [...new Set(candidates.map((candidate) => candidate.id))];
  return { problem: problemAt(place('figure'), messages.unknownFigure(id, nearestNames(id, known), known)) };
}

const subjectsOf = ({ figures }: CaptureRecord) => [
  ...new Set(figures.flatMap(({ subject }) => subject ?? [])),
];
