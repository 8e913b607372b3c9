import { messages } from './messages.ts';
import type { Norm } from './norms.ts';
import type { TraceEntry } from './types.ts';
import { firstView, type View, viewOf, viewsOf } from './views.ts';

/** What the page shows: all of it stands in its address. */
export interface OverlayState {
  view: View;
  /** Ids of the traces, in the order of their lines. */
  traces: string[];
  norm: Norm;
  /** Id of the trace that differences are taken from: one of `traces`; null without any. */
  reference: string | null;
  /** Hertz or watts; null while there is no cursor. */
  cursor: number | null;
}

/** A state, and what an address asked for that does not exist. */
export interface ReadState {
  state: OverlayState;
  faults: string[];
}

/**
 * Reads the query of an address. What names nothing is told in full sentences and left out; a view that is not
 * stated is the first that the stated traces have.
 */
export function readState(query: string, entries: readonly TraceEntry[]): ReadState {
  const asked = new URLSearchParams(query);
  const named = [...new Set(asked.getAll('trace'))];
  const known = named.flatMap((id) => entries.find((entry) => entry.id === id) ?? []);
  const stated = asked.get('view');
  const found = stated === null ? null : viewOf(stated);
  const view = found ?? viewsOf(known)[0] ?? viewsOf(entries)[0] ?? firstView;
  const fitting = known.filter(({ views }) => views.includes(view.id));
  const faults = [
    ...(stated !== null && found === null ? [messages.noView(stated)] : []),
    ...named.filter((id) => !known.some((entry) => entry.id === id)).map(messages.noTrace),
    ...known
      .filter((entry) => !fitting.includes(entry))
      .map(({ title }) => messages.noCurve(title, view.name)),
    ...normFaults(asked.get('norm'), view),
  ];
  const traces = fitting.map(({ id }) => id);
  const norm = normOf(view, asked.get('norm'));
  return {
    state: {
      ...{ view, traces, norm, cursor: numberOf(asked.get('at')) },
      reference: referenceOf(traces, asked.get('reference')),
    },
    faults,
  };
}

/** The query that says a state, in one spelling. */
export function writeState({ view, traces, norm, reference, cursor }: OverlayState): string {
  const isApart = norm.id === 'difference' && reference !== null && reference !== traces[0];
  return queryText([
    ['view', view.id],
    ...traces.map((id): Pair => ['trace', id]),
    ...(norm === view.norms[0] ? [] : [['norm', norm.id] as const]),
    ...(isApart ? [['reference', reference] as const] : []),
    ...(cursor === null ? [] : [['at', String(Number(cursor.toPrecision(6)))] as const]),
  ]);
}

type Pair = readonly [name: string, value: string];

/** The query that shows some traces in a view. */
export const viewQuery = (view: string, traces: readonly string[]): string =>
  queryText([['view', view], ...traces.map((id): Pair => ['trace', id])]);

/** A query with the slashes and colons of trace ids left readable. */
function queryText(pairs: readonly Pair[]): string {
  const said = new URLSearchParams(pairs.map(([name, value]) => [name, value]));
  return `?${said.toString().replaceAll('%2F', '/').replaceAll('%3A', ':')}`;
}

/** The normalisation of an id in a view; the view's first where the view has none of that id. */
export function normOf(view: View, id: string | null): Norm {
  return view.norms.find((norm) => norm.id === id) ?? view.norms[0];
}

/** The trace that differences are taken from: the one wanted, where it is shown, or else the first. */
export function referenceOf(traces: readonly string[], wanted: string | null): string | null {
  return traces.find((id) => id === wanted) ?? traces[0] ?? null;
}

function normFaults(stated: string | null, view: View): string[] {
  return stated === null || view.norms.some(({ id }) => id === stated)
    ? []
    : [messages.noNorm(stated, view.name)];
}

function numberOf(text: string | null): number | null {
  const value = Number(text ?? '');
  return Number.isFinite(value) && value > 0 ? value : null;
}
