import type { Figure } from '../../figures/index.ts';
import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { captureName } from '../ids.ts';
import { messages } from '../messages.ts';
import type { RawRecord } from '../records.ts';
import type { LogData } from '../schemas/index.ts';
import type { CaptureRecord, KeyFigure, Repeats } from '../types.ts';

type Chosen = { keyFigure: KeyFigure } | { problem: Problem } | null;

/** What a key figure can be of: a capture, or repeats. */
interface Source extends Omit<KeyFigure, 'figure'> {
  name: string;
  figures: readonly Figure[];
}

/** Finds the figures that a log puts at its top; one that does not exist is a problem at its line. */
export function chooseKeyFigures(
  record: RawRecord<LogData>,
  captures: readonly CaptureRecord[],
  repeats: readonly Repeats[],
): { keyFigures: KeyFigure[]; problems: Problem[] } {
  const sources = [...captures.map(ofCapture), ...repeats.map((one) => ofRepeats(one, record.id))];
  const chosen = record.data.keyFigures.map((_, index) => choose(record, index, sources));
  return {
    keyFigures: chosen.flatMap((choice) => (choice && 'keyFigure' in choice ? [choice.keyFigure] : [])),
    problems: chosen.flatMap((choice) => (choice && 'problem' in choice ? [choice.problem] : [])),
  };
}

const ofCapture = ({ name, figures, data, id }: CaptureRecord): Source => ({
  ...{ name, figures, title: data.title, page: id, anchor: 'summary' },
});

const ofRepeats = ({ data, repeated, anchor }: Repeats, page: string): Source => ({
  ...{ name: data.id, figures: repeated.map(({ figure }) => figure), title: data.title, page, anchor },
});

/** One key figure; null where what it is of is declared but could not be read, which is told elsewhere. */
function choose({ data, yaml }: RawRecord<LogData>, index: number, sources: readonly Source[]): Chosen {
  const { figure: id = '', of = '' } = data.keyFigures[index] ?? {};
  const [name = '', channel] = of.split('#');
  const place = (key: string) => yaml.placeOf(['keyFigures', index, key]);
  const declared = [...data.captures.map(captureName), ...data.repeats.map((one) => one.id)];
  if (!declared.includes(name)) {
    return { problem: problemAt(place('of'), messages.figureForm(of, nearestNames(name, declared))) };
  }
  const source = sources.find((candidate) => candidate.name === name);
  if (!source) return null;
  const candidates = source.figures.filter(({ subject }) => channel === undefined || subject === channel);
  const figure = candidates.find((candidate) => candidate.id === id);
  const { title, page, anchor } = source;
  if (figure) return { keyFigure: { figure, title, page, anchor } };
  if (channel !== undefined && candidates.length === 0) {
    return { problem: problemAt(place('of'), messages.unknownColumn(channel, subjectsOf(source))) };
  }
  const known = [...new Set(candidates.map((candidate) => candidate.id))];
  return { problem: problemAt(place('figure'), messages.unknownFigure(id, nearestNames(id, known), known)) };
}

const subjectsOf = ({ figures }: Source) => [...new Set(figures.flatMap(({ subject }) => subject ?? []))];
