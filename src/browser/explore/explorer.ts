import type { ExploredChart, ExploredLine } from '../../charts/explored.ts';
import {
  exploredPlace,
  holding,
  isWhole,
  markedPlaces,
  placesIn,
  readingsAt,
  readingsSentence,
  readingText,
  type Stretch,
  stretchBetween,
  wholeOf,
  zoomed,
} from '../../overlay/explored/index.ts';
import { nearestPlace } from '../../overlay/index.ts';
import { isNarrow } from '../overlay/narrow.ts';
import { type Controls, controlsOf } from './controls.ts';
import { type Drawn, drawChart } from './draw.ts';
import { followPointer } from './pointer.ts';

const step = 0.5;

/** A chart as its reader changes it: which lines are shown, on which part of the axis, and where the cursor stands. */
export class Explorer {
  readonly controls: Controls;
  readonly #chart: ExploredChart;
  readonly #marked: number[];
  readonly #over = new AbortController();
  #stretch: Stretch;
  #cursor: number;
  #drawn: Drawn;
  #speaks = 0;

  constructor(chart: ExploredChart, name: string) {
    this.#chart = chart;
    this.controls = controlsOf(chart, name);
    this.#marked = markedPlaces(chart);
    this.#stretch = wholeOf(chart).whole;
    this.#cursor = this.#marked[0] ?? this.#nearest(usualPlace(chart));
    this.#drawn = this.#draw();
    this.#listen();
    this.#show();
  }

  /** Ends everything that the explorer listens to outside of its own element. */
  close(): void {
    clearTimeout(this.#speaks);
    this.#over.abort();
  }

  #listen(): void {
    const { root, drawing, cursor, closer, wider, all, lines } = this.controls;
    closer.addEventListener('click', () => this.#zoom(step));
    wider.addEventListener('click', () => this.#zoom(1 / step));
    all.addEventListener('click', () => this.#stretchTo(wholeOf(this.#chart).whole));
    for (const { box } of lines) box.addEventListener('change', () => this.#redraw());
    cursor.addEventListener('input', () => this.#point(this.#places()[cursor.valueAsNumber]));
    root.addEventListener('keydown', (event) => this.#press(event));
    isNarrow.addEventListener('change', () => this.#redraw(), { signal: this.#over.signal });
    followPointer(drawing, {
      placeAt: (clientX) => this.#drawn.placeAt(clientX),
      point: (place) => this.#point(this.#nearest(place)),
      select: (from, to) => this.#drawn.select(from, to),
      zoom: (from, to) => this.#stretchTo(stretchBetween(from, to, wholeOf(this.#chart))),
    });
  }

  #press(event: KeyboardEvent): void {
    const { key, target, ctrlKey, metaKey, altKey } = event;
    if (ctrlKey || metaKey || altKey) return;
    if (key === '+' || key === '=') this.#zoom(step);
    else if (key === '-') this.#zoom(1 / step);
    else if (key === '0') this.#stretchTo(wholeOf(this.#chart).whole);
    else if (target === this.controls.cursor && key.startsWith('Page') && this.#marked.length > 0) {
      this.#point(this.#nextMark(key === 'PageUp'));
    } else return;
    event.preventDefault();
  }

  #nextMark(isUp: boolean): number | undefined {
    return isUp
      ? this.#marked.find((place) => place > this.#cursor)
      : this.#marked.findLast((place) => place < this.#cursor);
  }

  #zoom(factor: number): void {
    this.#stretchTo(zoomed(this.#stretch, factor, this.#cursor, wholeOf(this.#chart)));
  }

  #stretchTo(stretch: Stretch): void {
    this.#stretch = stretch;
    const [from, to] = stretch;
    if (this.#cursor < from || this.#cursor > to) {
      this.#cursor = this.#nearest(Math.min(Math.max(this.#cursor, from), to));
    }
    this.#redraw();
    const ends = stretch.map((place) => exploredPlace({ x: this.#chart.x, panels: [] }, place));
    this.#say(`Shown: ${ends.join(' to ')}.`);
  }

  #point(place: number | undefined): void {
    if (place === undefined) return;
    this.#cursor = place;
    const held = holding(this.#stretch, place, wholeOf(this.#chart));
    if (held !== this.#stretch) {
      this.#stretch = held;
      this.#drawn = this.#draw();
    }
    this.#show();
    this.#say(readingsSentence(this.#chart, place, this.#readings()));
  }

  #lines = (): Set<ExploredLine> =>
    new Set(this.controls.lines.filter(({ box }) => box.checked).map(({ line }) => line));

  /** Places of the lines that are shown; of all where none is. */
  #places(): number[] {
    const { whole } = wholeOf(this.#chart);
    const shown = placesIn(this.#lines(), whole);
    return shown.length > 0 ? shown : placesIn(allLines(this.#chart), whole);
  }

  #nearest(place: number): number {
    const places = this.#places();
    return places[nearestPlace(places, place, this.#chart.x.kind)] ?? place;
  }

  #readings() {
    const shown = this.#lines();
    return readingsAt(this.#chart, this.#cursor).filter(({ line }) => shown.has(line));
  }

  #redraw(): void {
    this.#drawn = this.#draw();
    this.#show();
  }

  #draw(): Drawn {
    return drawChart(this.controls, this.#chart, { lines: this.#lines(), stretch: this.#stretch });
  }

  /** Puts the cursor and what it reads where they stand. */
  #show(): void {
    const { cursor, place, lines, all, wider } = this.controls;
    const places = this.#places();
    const said = exploredPlace(this.#chart, this.#cursor);
    cursor.max = String(places.length - 1);
    cursor.value = String(nearestPlace(places, this.#cursor, this.#chart.x.kind));
    cursor.setAttribute('aria-valuetext', said);
    place.textContent = said;
    this.#drawn.point(this.#cursor);
    const readings = new Map(this.#readings().map((reading) => [reading.line, readingText(reading)]));
    for (const { line, value } of lines) value.textContent = readings.get(line) ?? '';
    const whole = isWhole(this.#stretch, wholeOf(this.#chart));
    for (const button of [all, wider]) button.setAttribute('aria-disabled', String(whole));
  }

  /** Says something once nothing newer has come for a moment. */
  #say(text: string): void {
    clearTimeout(this.#speaks);
    this.#speaks = window.setTimeout(() => {
      this.controls.said.textContent = text;
    }, 400);
  }
}

const allLines = ({ panels }: ExploredChart): ExploredLine[] => panels.flatMap(({ lines }) => lines);

/** Where a reader would look first: 1 kHz, 1 W, or the middle. */
function usualPlace(chart: ExploredChart): number {
  const { whole, kind } = wholeOf(chart);
  const usual = { Hz: 1000, W: 1 }[chart.x.unit];
  if (usual !== undefined && usual > whole[0] && usual < whole[1]) return usual;
  return kind === 'log' ? Math.sqrt(whole[0] * whole[1]) : (whole[0] + whole[1]) / 2;
}
