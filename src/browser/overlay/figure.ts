import { lineStyle } from '../../charts/theme.ts';
import {
  cursorMarks,
  cursorPlaces,
  cursorText,
  type OverlayState,
  overlayAxes,
  overlayTitle,
  type Plot,
  placeText,
  plotOf,
  sceneOf,
  type Trace,
  valuesAt,
  valueText,
} from '../../overlay/index.ts';
import { drawingOf, drawn, sampleOf } from './drawing.ts';
import { element, html, svg } from './elements.ts';
import { isNarrow } from './narrow.ts';

/** What is drawn at the moment, for the cursor to move on. */
export interface Figure {
  plot: Plot | null;
  traces: readonly Trace[];
  places: number[];
  cursor: SVGElement;
  /** From the left edge of the picture to the axis, as a share of the picture's width; and the share of the plot. */
  left: number;
  share: number;
}

/** Draws anew when the page becomes narrow or wide. */
export const onResize = (draw: () => void): void => isNarrow.addEventListener('change', draw);

/** Draws traces of one unit into the page. */
export function showFigure(traces: readonly Trace[], state: OverlayState, unit: string): Figure {
  const place = element('overlay-drawing', HTMLDivElement);
  const title = titleOf(traces, state);
  const plot = plotOf(traces, state.view, isNarrow.matches ? 'narrow' : 'wide');
  const range = element('overlay-cursor', HTMLInputElement);
  if (plot === null) {
    place.replaceChildren();
    range.disabled = true;
    return { plot, traces, places: [], cursor: svg('g', {}), left: 0, share: 1 };
  }
  const scene = sceneOf(plot, overlayAxes(state.view, unit));
  const { picture, cursor } = drawingOf(scene, title);
  place.replaceChildren(picture);
  const places = cursorPlaces(traces);
  range.disabled = false;
  range.max = String(places.length - 1);
  return {
    ...{ plot, traces, places, cursor },
    left: scene.left / scene.width,
    share: scene.plotWidth / scene.width,
  };
}

function titleOf(traces: readonly Trace[], state: OverlayState): string {
  return traces.length === 0 ? 'Choose traces' : overlayTitle(state, traces);
}

/** The place below a point of the page. */
export function placeAt({ plot, left, share }: Figure, clientX: number): number | null {
  const { x, width } = element(
    'overlay-drawing',
    HTMLDivElement,
  ).firstElementChild?.getBoundingClientRect() ?? {
    x: 0,
    width: 0,
  };
  if (plot === null || width === 0) return null;
  const [low, high] = plot.panel.x.domain;
  const way = Math.min(1, Math.max(0, ((clientX - x) / width - left) / share));
  return low * (high / low) ** way;
}

/** Shows the cursor of a state with what every trace reads there. */
export function showCursor({ plot, traces, places, cursor }: Figure, state: OverlayState): void {
  const range = element('overlay-cursor', HTMLInputElement);
  const at = state.cursor;
  const said = at === null ? 'none' : placeText(at, state.view);
  const nearest = places.findIndex((place) => at !== null && place >= at * (1 - 1e-9));
  range.value = String(at === null ? 0 : nearest < 0 ? places.length - 1 : nearest);
  range.setAttribute('aria-valuetext', said);
  element('overlay-place', HTMLOutputElement).textContent = said;
  element('overlay-clear', HTMLButtonElement).disabled = at === null;
  element('overlay-title', HTMLHeadingElement).textContent = titleOf(traces, state);
  cursor.replaceChildren(...(plot && at !== null ? cursorMarks(plot, at).map(drawn) : []));
  element('overlay-readings', HTMLUListElement).replaceChildren(
    ...(at === null ? [] : valuesAt(traces, at)).map(({ trace, value }, i) =>
      html(
        'li',
        {},
        sampleOf(lineStyle(i)),
        ` ${trace.title} `,
        html('span', { class: 'value' }, valueText(value, trace.unit)),
      ),
    ),
  );
}

let waiting = 0;

/** Says politely what the traces read, once the cursor has come to rest. */
export function announce({ traces }: Figure, { cursor, view }: OverlayState): void {
  clearTimeout(waiting);
  waiting = window.setTimeout(() => {
    element('overlay-said', HTMLParagraphElement).textContent =
      cursor === null ? 'No cursor.' : `${cursorText(traces, cursor, view)}.`;
  }, 400);
}

/** The place that the arrow keys have moved the cursor to. */
export const steppedTo = ({ places }: Figure): number | null =>
  places[element('overlay-cursor', HTMLInputElement).valueAsNumber] ?? null;
