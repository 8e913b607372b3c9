import { type Measured, repeatedMeasured } from '../../figures/index.ts';
import { type Fault, type Problem, problemAt } from '../../problem/index.ts';
import { capturedFigures } from '../analysis/repeatability.ts';
import type { RawRecord } from '../records.ts';
import type { ComparisonData } from '../schemas/index.ts';
import type { CaptureRecord, Log } from '../types.ts';
import { comparisonMessages as messages } from './comparison-messages.ts';

/** A capture of an alternative, or repeats that stand for theirs, and the channel that carries the alternative. */
export interface ComparedSource {
  title: string;
  /** Id of the record that shows it, and the place on its page. */
  page: string;
  anchor: string;
  /** Of repeats the first. */
  capture: CaptureRecord;
  /** Every capture that it rests on, by id. */
  captures: string[];
  channel: string;
  /** Figures of the channel. */
  measured: Measured[];
}

/** An alternative with what was measured of it. */
export interface ComparedAlternative {
  data: ComparisonData['alternatives'][number];
  sources: ComparedSource[];
}

/** What captures and repeats are found in. */
export type ComparedLogs = readonly Pick<Log, 'id' | 'data' | 'captures' | 'repeats'>[];

/** Finds the captures of every alternative; one that could not be read is told elsewhere and left out. */
export function comparedAlternatives(
  { data, yaml }: RawRecord<ComparisonData>,
  logs: ComparedLogs,
): { alternatives: ComparedAlternative[]; problems: Problem[] } {
  const problems: Problem[] = [];
  const seen = new Set<string>();
  const alternatives = data.alternatives.map((alternative, index) => {
    const sources = alternative.captures.flatMap((written, i) => {
      const place = yaml.placeOf(['alternatives', index, 'captures', i]);
      const found = sourceOf(written, logs);
      if (found === null) return [];
      if ('rule' in found) {
        problems.push(problemAt(place, found));
        return [];
      }
      const names = found.captures.map((id) => `${id}#${found.channel}`);
      problems.push(
        ...names.filter((name) => seen.has(name)).map((name) => problemAt(place, messages.twice(name))),
      );
      for (const name of names) seen.add(name);
      return [found];
    });
    return { data: alternative, sources };
  });
  return { alternatives, problems };
}

type Unplaced = Omit<ComparedSource, 'channel'>;

/** The capture and the channel that a name stands for; null where it is not there. */
function sourceOf(written: string, logs: ComparedLogs): ComparedSource | Fault | null {
  const [name = '', channel] = written.split('#');
  const id = name.replaceAll(/^\/+|\/+$/g, '');
  const source = captureSource(id, logs) ?? repeatSource(id, logs);
  if (!source) return null;
  const channels = answeringChannels(source.capture);
  const [only] = channels;
  if (only === undefined) return messages.noFigures(id);
  if (channel === undefined && channels.length > 1) return messages.whichChannel(id, channels);
  const chosen = channel ?? only;
  if (!channels.includes(chosen)) return messages.noChannel(chosen, id, channels);
  const measured = source.measured.filter(({ figure }) => figure.subject === chosen);
  return { ...source, channel: chosen, measured };
}

function captureSource(id: string, logs: ComparedLogs): Unplaced | null {
  const capture = logs.flatMap(({ captures }) => captures).find((one) => one.id === id);
  if (!capture) return null;
  return {
    ...{ title: capture.data.title, page: capture.id, anchor: 'summary', capture, captures: [capture.id] },
    measured: capturedFigures(capture),
  };
}

function repeatSource(id: string, logs: ComparedLogs): Unplaced | null {
  const log = logs.find((one) => id.startsWith(`${one.id}/`));
  const repeats = log?.repeats.find(({ data }) => `${log.id}/${data.id}` === id);
  const capture = repeats?.captures[0];
  if (!log || !repeats || !capture) return null;
  return {
    ...{ title: repeats.data.title, page: log.id, anchor: repeats.anchor, capture },
    captures: repeats.captures.map((one) => one.id),
    measured: repeats.repeated.map(repeatedMeasured),
  };
}

/** Channels of which something was measured, the stimulus apart. */
function answeringChannels({ analysis, capture }: CaptureRecord): string[] {
  const isStimulus = (name: string) =>
    capture.columns.some((column) => column.name === name && column.role === 'stimulus');
  switch (analysis.kind) {
    case 'unsummarised':
      return [];
    case 'waveform':
    case 'two-tone':
      return analysis.summary.channels.map(({ name }) => name).filter((name) => !isStimulus(name));
    default:
      return analysis.sweeps.map(({ channel }) => channel.name);
  }
}
