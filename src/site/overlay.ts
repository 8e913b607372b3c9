import { setImmediate as nextTurn } from 'node:timers/promises';
import type { CaptureRecord, Comparison, Journal, Log } from '../journal/types.ts';
import { type Curve, type TraceEntry, viewQuery, viewsOf } from '../overlay/index.ts';
import { chartedDigest } from './charted-capture.ts';
import { siteResults } from './drawing.ts';
import { overlayCurves } from './overlay-curves.ts';
import { versionsWith } from './part-facts.ts';

/** A capture with the curves that can be laid over others. */
export interface OverlayCapture {
  capture: CaptureRecord;
  curves: Curve[];
}

const found = new WeakMap<CaptureRecord, Curve[]>();

/** The curves of a capture, computed once for every page that leads to them. */
export function curvesOf(capture: CaptureRecord): Curve[] {
  const curves = found.get(capture) ?? keptCurves(capture) ?? madeCurves(capture);
  found.set(capture, curves);
  return curves;
}

const keptCurves = (capture: CaptureRecord): Curve[] | null =>
  (siteResults()?.get('curves', [chartedDigest(capture)]) as Curve[] | null | undefined) ?? null;

function madeCurves(capture: CaptureRecord): Curve[] {
  const curves = overlayCurves(capture);
  void siteResults()?.put('curves', [chartedDigest(capture)], curves);
  return curves;
}

/** Every capture that has a curve, newest log first. */
export const overlayCaptures = ({ logs }: Pick<Journal, 'logs'>): OverlayCapture[] =>
  logs
    .flatMap(({ captures }) => captures.map((capture) => ({ capture, curves: curvesOf(capture) })))
    .filter(({ curves }) => curves.length > 0);

/**
 * The captures that have a curve, newest log first. Each has a turn of its own, as samples that are held weakly are let go
 * of only between turns.
 */
export async function capturesWithCurves({ logs }: Pick<Journal, 'logs'>): Promise<CaptureRecord[]> {
  const captures: CaptureRecord[] = [];
  for (const capture of logs.flatMap((log) => log.captures)) {
    if (curvesOf(capture).length > 0) captures.push(capture);
    await nextTurn();
  }
  return captures;
}

/** Path of a capture below the curves of the overlay page: the first part of a trace's id. */
export const curvesPath = ({ id }: Pick<CaptureRecord, 'id'>): string => id.replace(/^logs\//, '');

const traceId = (capture: string, channel: string): string => `${curvesPath({ id: capture })}:${channel}`;

/** What the page lists before any curve is read. */
export function overlayEntries(journal: Journal): TraceEntry[] {
  const entries = journal.logs.flatMap((log) =>
    overlayCaptures({ logs: [log] }).flatMap((one) =>
      channelsOf(one.curves).map((channel) => entryOf(one, channel, { journal, log })),
    ),
  );
  const alike = Map.groupBy(entries, ({ title }) => title);
  return entries.map((entry) => toldApart(entry, alike.get(entry.title) ?? []));
}

/** Traces of one title are told apart by their versions, or else by their captures. */
function toldApart(entry: TraceEntry, alike: readonly TraceEntry[]): TraceEntry {
  if (alike.length < 2) return entry;
  const sameVersion = alike.filter(({ version }) => version === entry.version);
  const suffix = sameVersion.length > 1 ? curvesPath({ id: entry.capture }) : entry.version;
  return suffix === null ? entry : { ...entry, title: `${entry.title} (${suffix})` };
}

const channelsOf = (curves: readonly Curve[]): string[] => [...new Set(curves.map(({ channel }) => channel))];

function entryOf(
  { capture, curves }: OverlayCapture,
  channel: string,
  { journal, log }: { journal: Journal; log: Log },
): TraceEntry {
  const { data, version: id } = capture;
  const version = journal.versions.find((one) => one.id === id) ?? null;
  const parts = version ? journal.parts.filter((part) => versionsWith(part.id, [version]).length > 0) : [];
  return {
    id: traceId(capture.id, channel),
    title: channelsOf(curves).length > 1 ? `${data.title}, ${channel}` : data.title,
    capture: capture.id,
    views: curves.filter((curve) => curve.channel === channel).map(({ view }) => view),
    amplifier: journal.amplifiers.find((one) => one.id === log.data.amplifier)?.data.title ?? null,
    version: version?.data.title ?? null,
    parts: parts.map((part) => part.data.title),
    alternatives: journal.comparisons.flatMap((comparison) =>
      alternativesWith(comparison, capture.id, channel),
    ),
  };
}

function alternativesWith({ data, compared }: Comparison, capture: string, channel: string): string[] {
  return compared.alternatives
    .filter(({ sources }) => sources.some((one) => one.captures.includes(capture) && one.channel === channel))
    .map((alternative) => `${data.title}: ${alternative.data.title}`);
}

/** Query that lays a capture's channels over one another in the view that tells most; null without curves. */
export function captureQuery(capture: CaptureRecord): string | null {
  return queryOf(capture.id, curvesOf(capture));
}

function queryOf(capture: string, curves: readonly Curve[]): string | null {
  const [view] = viewsOf([{ views: curves.map((curve) => curve.view) }]);
  return view
    ? viewQuery(
        view.id,
        curves.filter((curve) => curve.view === view.id).map(({ channel }) => traceId(capture, channel)),
      )
    : null;
}

/** A view in which every alternative of a comparison has a curve, with the query that shows it. */
export interface ComparedOverlay {
  name: string;
  query: string;
}

/** The views that the alternatives of a comparison share. */
export function comparedOverlays({ compared }: Comparison): ComparedOverlay[] {
  const sides = compared.alternatives.map(({ sources }) =>
    sources.flatMap(({ capture, channel }) =>
      curvesOf(capture)
        .filter((curve) => curve.channel === channel)
        .map(({ view }) => ({ view, trace: traceId(capture.id, channel) })),
    ),
  );
  const views = viewsOf([{ views: sides.flat().map(({ view }) => view) }]);
  return views.flatMap(({ id, name }) => {
    const traces = sides.map((side) => side.filter(({ view }) => view === id).map(({ trace }) => trace));
    return traces.every((side) => side.length > 0) ? [{ name, query: viewQuery(id, traces.flat()) }] : [];
  });
}
