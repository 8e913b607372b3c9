import { nearestNames, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import type { RawRecord } from './records.ts';
import type { LogData } from './schemas/index.ts';
import type { CaptureRecord, Log } from './types.ts';

/** Finds the figures that a log puts at its top; one that does not exist is a problem at its line. */
export function chooseKeyFigures(
  { data, yaml }: RawRecord<LogData>,
  captures: readonly CaptureRecord[],
): { keyFigures: Log['keyFigures']; problems: Problem[] } {
  const keyFigures: Log['keyFigures'] = [];
  const problems: Problem[] = [];
  for (const [index, { figure: id, of }] of data.keyFigures.entries()) {
    const [name = '', channel] = of.split('#');
    const capture = captures.find((candidate) => candidate.name === name);
    const at = (key: string) => yaml.placeOf(['keyFigures', index, key]);
    if (!capture) {
      problems.push(problemAt(at('of'), messages.figureForm(of)));
      continue;
    }
    const candidates = capture.figures.filter(({ subject }) => channel === undefined || subject === channel);
    const figure = candidates.find((candidate) => candidate.id === id);
    if (figure) keyFigures.push({ capture, figure });
    else
      problems.push(
        missing(
          capture,
          id,
          channel,
          candidates.map((candidate) => candidate.id),
          at,
        ),
      );
  }
  return { keyFigures, problems };
}

function missing(
  capture: CaptureRecord,
  id: string,
  channel: string | undefined,
  known: string[],
  at: (key: string) => Parameters<typeof problemAt>[0],
): Problem {
  const channels = [...new Set(capture.figures.flatMap(({ subject }) => subject ?? []))];
  if (channel !== undefined && known.length === 0)
    return problemAt(at('of'), messages.unknownColumn(channel, channels));
  return problemAt(at('figure'), messages.unknownFigure(id, nearestNames(id, known), [...new Set(known)]));
}
