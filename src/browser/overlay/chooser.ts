import { type OverlayState, type TraceEntry, viewsOf } from '../../overlay/index.ts';
import { element, fill, html } from './elements.ts';

const any = '';

/** Traces that are listed at once; the filters lead to the others. */
const mostListed = 200;

/** What the list of traces is narrowed by. */
const filters = {
  amplifier: ({ amplifier }: TraceEntry) => (amplifier === null ? [] : [amplifier]),
  version: ({ version }: TraceEntry) => (version === null ? [] : [version]),
  part: ({ parts }: TraceEntry) => parts,
  alternative: ({ alternatives }: TraceEntry) => alternatives,
} as const;

type FilterName = keyof typeof filters;
const filterNames = Object.keys(filters) as FilterName[];

/** What a reader can change: answers with the ids of the traces and the view that are wanted. */
export interface Choices {
  view: (id: string) => void;
  trace: (id: string, isWanted: boolean) => void;
  norm: (id: string) => void;
  reference: (id: string) => void;
}

const select = (name: string) => element(`overlay-${name}`, HTMLSelectElement);

/** Connects the form; the filters narrow the list and belong to no address. */
export function connectChooser(
  entries: readonly TraceEntry[],
  current: () => OverlayState,
  choices: Choices,
): void {
  for (const name of filterNames) {
    select(name).addEventListener('change', () => showChoices(entries, current()));
  }
  select('view').addEventListener('change', ({ target }) => choices.view(chosenIn(target)));
  select('norm').addEventListener('change', ({ target }) => choices.norm(chosenIn(target)));
  select('reference').addEventListener('change', ({ target }) => choices.reference(chosenIn(target)));
  element('overlay-traces', HTMLUListElement).addEventListener('change', ({ target }) => {
    if (target instanceof HTMLInputElement) choices.trace(target.value, target.checked);
  });
}

const chosenIn = (target: EventTarget | null): string =>
  target instanceof HTMLSelectElement ? target.value : '';

/** Shows what can be chosen in a state; a chosen trace stays listed whatever the filters say. */
export function showChoices(entries: readonly TraceEntry[], state: OverlayState): void {
  const offered = entries.filter(({ views }) => views.includes(state.view.id));
  fill(
    select('view'),
    viewsOf(entries).map(({ id, name }) => [id, name]),
    state.view.id,
  );
  for (const name of filterNames) showFilter(name, offered);
  fill(
    select('norm'),
    state.view.norms.map(({ id, name }) => [id, name]),
    state.norm.id,
  );
  showReference(entries, state);
  showTraces(offered, state);
}

function showFilter(name: FilterName, offered: readonly TraceEntry[]): void {
  const box = select(name);
  const values = [...new Set(offered.flatMap(filters[name]))];
  const kept = values.includes(box.value) ? box.value : any;
  fill(box, [[any, 'any'], ...values.map((value) => [value, value] as const)], kept);
  setHidden(box, values.length === 0);
}

function showReference(entries: readonly TraceEntry[], { norm, traces, reference }: OverlayState): void {
  const box = select('reference');
  const titleOf = (id: string) => entries.find((entry) => entry.id === id)?.title ?? id;
  fill(
    box,
    traces.map((id) => [id, titleOf(id)]),
    reference ?? any,
  );
  setHidden(box, norm.id !== 'difference');
}

function setHidden(box: HTMLSelectElement, isHidden: boolean): void {
  if (box.parentElement) box.parentElement.hidden = isHidden;
}

function showTraces(offered: readonly TraceEntry[], { traces }: OverlayState): void {
  const found = offered.filter((entry) => traces.includes(entry.id) || passes(entry));
  const listed = found.filter((entry, index) => index < mostListed || traces.includes(entry.id));
  const focused = document.activeElement?.id;
  element('overlay-traces', HTMLUListElement).replaceChildren(
    ...listed.map((entry) => traceItem(entry, traces.includes(entry.id))),
  );
  if (focused) document.getElementById(focused)?.focus();
  element('overlay-count', HTMLParagraphElement).textContent =
    `${listed.length} of ${offered.length} traces are listed, ${traces.length} chosen.${listed.length < found.length ? narrowerText : ''}`;
}

const narrowerText = ' Choose an amplifier, a version or a part to list others.';

const passes = (entry: TraceEntry): boolean =>
  filterNames.every(
    (name) => select(name).value === any || filters[name](entry).includes(select(name).value),
  );

function traceItem({ id, title, version }: TraceEntry, isChosen: boolean): HTMLLIElement {
  const box = html('input', { type: 'checkbox', value: id, id: `trace-${id}` });
  box.checked = isChosen;
  const of = version === null ? [] : [' ', html('span', { class: 'unit' }, version)];
  return html('li', {}, html('label', {}, box, ' ', title, ...of));
}
