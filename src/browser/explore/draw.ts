import { along } from '../../charts/axis.ts';
import type { ExploredChart } from '../../charts/explored.ts';
import { axesText, markMarks, plotsOf, type Shown } from '../../overlay/explored/index.ts';
import { cursorMarks, sceneOf } from '../../overlay/index.ts';
import { drawingOf, drawn } from '../overlay/drawing.ts';
import { svg } from '../overlay/elements.ts';
import { isNarrow } from '../overlay/narrow.ts';
import type { Controls } from './controls.ts';

/** A drawing that a cursor and a selection can be put into. */
export interface Drawn {
  point: (place: number) => void;
  /** Shades the part of the axis between two places; null takes the shade away. */
  select: (from: number | null, to: number) => void;
  /** The place below a point of the page, at most at the ends of the axis. */
  placeAt: (clientX: number) => number;
}

let drawings = 0;

/** Draws the panels of a chart one below another. */
export function drawChart({ drawing }: Controls, chart: ExploredChart, shown: Omit<Shown, 'size'>): Drawn {
  const plots = plotsOf(chart, { ...shown, size: isNarrow.matches ? 'narrow' : 'wide' });
  const pictures = plots.map((plot, i) => {
    const panel = chart.panels[i] ?? chart.x;
    const scene = sceneOf(plot, axesText(chart, panel));
    const marked = i === 0 ? { ...scene, plot: [...markMarks(plot, chart), ...scene.plot] } : scene;
    const name = `${panel.quantity} against ${chart.x.quantity.toLowerCase()}`;
    return { plot, scene, ...drawingOf(marked, name, `explored-${++drawings}`), shade: svg('g', {}) };
  });
  for (const { cursor, shade } of pictures) cursor.before(shade);
  drawing.replaceChildren(...pictures.map(({ picture }) => picture));
  return {
    point: (place) => {
      for (const { plot, cursor } of pictures) cursor.replaceChildren(...cursorMarks(plot, place).map(drawn));
    },
    select: (from, to) => {
      for (const { plot, shade } of pictures) {
        const ends = from === null ? null : [along(plot.panel.x, from), along(plot.panel.x, to)];
        shade.replaceChildren(...(ends ? [shadeOf(ends, plot.panel.y.length)] : []));
      }
    },
    placeAt: (clientX) => {
      const [first] = pictures;
      if (!first) return 0;
      const { x, width } = first.picture.getBoundingClientRect();
      const { scene } = first;
      const way = (((clientX - x) / width) * scene.width - scene.left) / scene.plotWidth;
      return placeOn(shown.stretch, chart.x.kind, Math.min(1, Math.max(0, way)));
    },
  };
}

function shadeOf(ends: readonly number[], height: number): SVGElement {
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  return svg('rect', { x: low, y: 0, width: high - low, height, class: 'explored-shade' });
}

function placeOn([low, high]: Shown['stretch'], kind: ExploredChart['x']['kind'], way: number): number {
  return kind === 'log' ? low * (high / low) ** way : low + (high - low) * way;
}
