import {
  messages,
  nearestPlace,
  normalised,
  normOf,
  type OverlayState,
  readState,
  referenceOf,
  type Trace,
  type TraceEntry,
  viewOf,
  writeState,
} from '../../overlay/index.ts';
import { connectChooser, showChoices } from './chooser.ts';
import { element, html } from './elements.ts';
import { announce, type Figure, onResize, placeAt, showCursor, showFigure, steppedTo } from './figure.ts';
import { showNumbers } from './numbers.ts';
import { readJson, readTrace } from './read-curves.ts';

const section = element('overlay', HTMLElement);
const { traces: listAddress = '', curves: folder = '', pages = '' } = section.dataset;

/** Runs the page from its address on; until it runs, the lists of pages stand in its place. */
async function start(published: readonly TraceEntry[]): Promise<void> {
  const { state: asked, faults } = readState(location.search, published);
  const entries = chosenFirst(published, asked);
  let state = asked;
  let loaded: readonly Trace[] = [];
  let figure: Figure | null = null;
  let round = 0;

  const draw = (notes: readonly string[]) => {
    const { traces, leftOut } = normalised(loaded, state.norm, state.reference);
    const unit = state.norm.unit ?? traces[0]?.unit ?? '';
    figure = showFigure(traces, state, unit);
    showCursor(figure, state);
    showNumbers(traces, state, unit);
    showNotes([...notes, ...leftOut]);
  };

  const load = async (notes: readonly string[]) => {
    const own = ++round;
    const wanted = state.traces.flatMap((id) => entries.find((entry) => entry.id === id) ?? []);
    const read = await Promise.all(wanted.map((entry) => readTrace(entry, state.view.id, folder)));
    if (own !== round) return;
    loaded = read.flatMap((trace) => trace ?? []);
    const unread = wanted.filter((_, i) => read[i] === null).map(({ title }) => messages.unread(title));
    draw([...notes, ...unread]);
    showSources(wanted);
  };

  const change = (part: Partial<OverlayState>) => {
    const next = { ...state, ...part };
    state = { ...next, reference: referenceOf(next.traces, next.reference) };
    showAddress(state);
    showChoices(entries, state);
    void load([]);
  };

  const point = (cursor: number | null) => {
    state = { ...state, cursor };
    if (figure === null) return;
    showCursor(figure, state);
    announce(figure, state);
    showAddressSoon(() => state);
  };

  connectChooser(entries, () => state, {
    view: (id) => {
      const view = viewOf(id) ?? state.view;
      const kept = entries.filter((entry) => state.traces.includes(entry.id) && entry.views.includes(id));
      const cursor = view.along === state.view.along ? state.cursor : null;
      change({ view, norm: normOf(view, state.norm.id), traces: kept.map((entry) => entry.id), cursor });
    },
    trace: (id, isWanted) =>
      change({ traces: isWanted ? [...state.traces, id] : state.traces.filter((one) => one !== id) }),
    norm: (id) => change({ norm: normOf(state.view, id) }),
    reference: (reference) => change({ reference }),
  });
  connectCursor(() => figure, point);
  onResize(() => draw([]));
  showChoices(entries, state);
  showAddress(state);
  reveal();
  await load(faults);
}

/** The order of the list; it stays when traces are chosen, so that nothing moves under the pointer. */
const chosenFirst = (entries: readonly TraceEntry[], { traces }: OverlayState): TraceEntry[] =>
  entries.toSorted((a, b) => Number(traces.includes(b.id)) - Number(traces.includes(a.id)));

/** The keyboard moves the cursor by its slider, a pointer by pressing or dragging in the drawing. */
function connectCursor(figure: () => Figure | null, point: (place: number | null) => void): void {
  element('overlay-cursor', HTMLInputElement).addEventListener('input', () => {
    const shown = figure();
    if (shown) point(steppedTo(shown));
  });
  element('overlay-clear', HTMLButtonElement).addEventListener('click', () => point(null));
  const follow = ({ buttons, clientX }: PointerEvent) => {
    const shown = figure();
    const place = shown && buttons === 1 ? placeAt(shown, clientX) : null;
    if (shown && place !== null) point(shown.places[nearestPlace(shown.places, place)] ?? null);
  };
  const drawing = element('overlay-drawing', HTMLDivElement);
  drawing.addEventListener('pointerdown', follow);
  drawing.addEventListener('pointermove', follow);
}

function reveal(): void {
  section.hidden = false;
  element('overlay-instead', HTMLDivElement).hidden = true;
}

function showAddress(state: OverlayState): void {
  const query = writeState(state);
  history.replaceState(null, '', query);
  element('overlay-link', HTMLAnchorElement).href = query;
}

let waiting = 0;

/** Browsers refuse an address that changes with every movement of a pointer. */
function showAddressSoon(state: () => OverlayState): void {
  clearTimeout(waiting);
  waiting = window.setTimeout(() => showAddress(state()), 200);
}

function showNotes(notes: readonly string[]): void {
  element('overlay-notes', HTMLDivElement).replaceChildren(...notes.map((note) => html('p', {}, note)));
}

/** Links to the pages of the captures that are shown. */
function showSources(entries: readonly TraceEntry[]): void {
  const links = entries.map(({ capture, title }) =>
    html('li', {}, html('a', { href: `${pages}${capture}/` }, title)),
  );
  element('overlay-sources', HTMLUListElement).replaceChildren(...links);
}

/** Without the list of what can be shown the page stays as it is without JavaScript. */
readJson<TraceEntry[]>(listAddress).then(start, () => {});
