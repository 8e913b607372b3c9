import type { ExploredChart, ExploredLine } from '../../charts/explored.ts';
import { sampleOf } from '../overlay/drawing.ts';
import { html } from '../overlay/elements.ts';

/** The parts of an explorer that change while it is used. */
export interface Controls {
  root: HTMLElement;
  drawing: HTMLElement;
  cursor: HTMLInputElement;
  place: HTMLElement;
  closer: HTMLButtonElement;
  wider: HTMLButtonElement;
  all: HTMLButtonElement;
  lines: { line: ExploredLine; box: HTMLInputElement; value: HTMLElement }[];
  said: HTMLElement;
}

/** What the controls do, and how values are read. */
function hintsOf({ panels, marks }: ExploredChart): string {
  const hasBand = panels.some(({ lines }) => lines.some(({ edges }) => edges));
  return [
    'The cursor stops at readings; a line without one there is read straight between its neighbours, and nowhere beyond them.',
    ...(hasBand ? ['In brackets stand the ends of the band.'] : []),
    'A mouse dragged over the drawing chooses a part of the axis. Keys: arrows move the cursor, + and − go closer and wider, 0 shows all, Escape closes.',
    ...(marks ? ['Page up and page down go to the next line that has a name.'] : []),
  ].join(' ');
}

/** Builds the controls of a chart. */
export function controlsOf(chart: ExploredChart, name: string): Controls {
  const button = (text: string, label: string) =>
    html('button', { type: 'button', 'aria-label': label }, text);
  const parts = {
    drawing: html('div', { class: 'explored-drawing' }),
    cursor: html('input', { type: 'range', min: '0', step: '1', autocomplete: 'off' }),
    place: html('output', {}),
    closer: button('closer', 'closer: a smaller part of the axis'),
    wider: button('wider', 'wider: a larger part of the axis'),
    all: button('all', 'all of the axis'),
    lines: chart.panels.flatMap(({ lines }) => lines.map(lineControl)),
    said: html('p', { class: 'explorer-said', role: 'status' }),
  };
  const { drawing, cursor, place, closer, wider, all, lines, said } = parts;
  const root = html(
    'div',
    { class: 'explorer', role: 'group', 'aria-label': `Explore: ${name}` },
    drawing,
    html(
      'p',
      { class: 'presses' },
      html('label', {}, html('span', {}, 'Cursor'), cursor),
      place,
      html('span', {}, closer, wider, all),
    ),
    html('ul', {}, ...lines.map(({ item }) => item)),
    html('p', { class: 'quiet' }, hintsOf(chart)),
    said,
  );
  return { ...parts, root };
}

function lineControl(line: ExploredLine) {
  const isPoints = line.runs.every(({ x }) => x.length === 1);
  const box = html('input', { type: 'checkbox', autocomplete: 'off' });
  box.checked = true;
  const value = html('span', { class: 'value' });
  const item = html('li', {}, html('label', {}, box, sampleOf(line.style, isPoints), line.name), value);
  return { line, box, value, item };
}
