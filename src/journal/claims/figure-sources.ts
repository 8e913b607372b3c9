import { exactly } from '../../compare/index.ts';
import { type Figure, type Measured, repeatedMeasured } from '../../figures/index.ts';
import { stageFigures } from '../../figures/stages.ts';
import { type Fault, nearestNames } from '../../problem/index.ts';
import { capturedFigures } from '../analysis/repeatability.ts';
import { nearestPaths } from '../nearest-paths.ts';
import type { CaptureRecord, Log, Version } from '../types.ts';
import { claimMessages as messages } from './claim-messages.ts';

/** What figures can be named of: a capture, repeats, or the load sheet of a version. */
export interface FigureSource {
  /** As other records name it. */
  id: string;
  title: string;
  /** Id of the record whose page shows it, and the place on that page; null: the part of the figure is the place. */
  page: string;
  anchor: string | null;
  /** One that stands for all: of repeats the first; null for a load sheet. */
  capture: CaptureRecord | null;
  /** Every capture that it rests on, by id. */
  captures: string[];
  measured: Measured[];
}

/** Everything that figures can be named of, by id. */
export type FigureSources = ReadonlyMap<string, FigureSource>;

export function figureSources(
  logs: readonly Omit<Log, 'expectations'>[],
  versions: readonly Version[],
): FigureSources {
  const all = [...logs.flatMap(({ captures }) => captures.map(ofCapture)), ...logs.flatMap(ofRepeats)];
  return new Map([...all, ...versions.flatMap(ofSheet)].map((source) => [source.id, source]));
}

const ofCapture = (capture: CaptureRecord): FigureSource => ({
  ...{ id: capture.id, title: capture.data.title, page: capture.id, anchor: 'summary' },
  ...{ capture, captures: [capture.id], measured: capturedFigures(capture) },
});

const ofRepeats = ({ id: log, repeats }: Pick<Log, 'id' | 'repeats'>): FigureSource[] =>
  repeats.map(({ data, anchor, captures, repeated }) => ({
    ...{ id: `${log}/${data.id}`, title: data.title, page: log, anchor },
    capture: captures[0] ?? null,
    captures: captures.map(({ id }) => id),
    measured: repeated.map(repeatedMeasured),
  }));

const ofSheet = ({ id, file, data, sheet }: Version): FigureSource[] => [
  {
    ...{ id, title: `${data.title}, load sheet`, page: id, anchor: null, capture: null, captures: [] },
    measured: stageFigures(sheet?.stages ?? [], file).map(exactly),
  },
];

/** Place on the page of a source where a figure of it is shown; a stage's sheet is at the stage's id. */
export const anchorOf = ({ anchor }: FigureSource, { subject }: Figure): string =>
  anchor ?? subject ?? 'content';

/** What a name is resolved against. */
export interface NamingContext {
  sources: FigureSources;
  /** Everything that is declared, read or not. */
  declared: readonly string[];
  /** The record that names it; its own captures need no path. */
  record: string;
}

/** A source and a part of it: `capture#channel`; null where it is declared but could not be read. */
export function findSource(
  written: string,
  { sources, declared, record }: NamingContext,
): { source: FigureSource; part: string | undefined } | { fault: Fault } | null {
  const [name = '', part] = written.split('#');
  const id = [`${record}/${name}`, name.replaceAll(/^\/+|\/+$/g, '')].find((one) => declared.includes(one));
  if (id === undefined) return { fault: messages.noSource(name, near(name, record, declared)) };
  const source = sources.get(id);
  return source ? { source, part } : null;
}

function near(name: string, record: string, declared: readonly string[]): string[] {
  const own = declared.filter((id) => id.startsWith(`${record}/`)).map((id) => id.slice(record.length + 1));
  return name.includes('/') ? nearestPaths(name, declared) : nearestNames(name, own);
}

/** The figure of a source; a fault where it has none, or several channels have it and none is named. */
export function figureOf(
  source: FigureSource,
  part: string | undefined,
  figure: string,
): { measured: Measured } | { fault: Fault; at: 'of' | 'figure' } {
  const parts = [...new Set(source.measured.flatMap((one) => one.figure.subject ?? []))];
  if (part !== undefined && !parts.includes(part)) {
    return { fault: messages.noPart(part, nearestNames(part, parts), parts), at: 'of' };
  }
  const ofPart = source.measured.filter((one) => part === undefined || one.figure.subject === part);
  const found = ofPart.filter((one) => one.figure.id === figure);
  const [first] = found;
  if (new Set(found.map((one) => one.figure.subject)).size > 1)
    return { fault: messages.whichPart(source.id, parts), at: 'of' };
  if (first) return { measured: first };
  const known = [...new Set(ofPart.map((one) => one.figure.id))];
  return { fault: messages.noFigure(figure, source.id, nearestNames(figure, known), known), at: 'figure' };
}
