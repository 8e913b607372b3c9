import { along, within } from '../charts/axis.ts';
import { endLabels } from '../charts/curves.ts';
import { lineHeight } from '../charts/end-labels.ts';
import { pixelY } from '../charts/layers.ts';
import { joined, type Run } from '../charts/readings.ts';
import { colour } from '../charts/theme.ts';
import { axisMarks, type SceneAxes } from './axis-marks.ts';
import { readRuns } from './levels.ts';
import { type Mark, words } from './marks.ts';
import type { Plot, PlottedLine } from './plot.ts';

/** A drawing in pixels. `plot` marks stay inside the axes, `around` stands about them. */
export interface Scene {
  width: number;
  height: number;
  left: number;
  top: number;
  plotWidth: number;
  plotHeight: number;
  plot: Mark[];
  around: Mark[];
}

/** Draws lines on their axes: rules, intervals, noise floors, and lines with their names at the ends. */
export function sceneOf(plot: Plot, axes: SceneAxes): Scene {
  const { frame, panel, lines } = plot;
  const height = panel.y.length;
  return {
    width: frame.left + frame.width + frame.right,
    height: frame.top + height + frame.bottom,
    ...{ left: frame.left, top: frame.top, plotWidth: frame.width, plotHeight: height },
    plot: [
      ...lines.flatMap((line) => bandMarks(plot, line)),
      ...lines.flatMap((line) => floorMarks(plot, line)),
      ...lines.flatMap((line) => curveMarks(plot, line)),
    ],
    around: [...axisMarks(plot, axes), ...(plot.isNamed ? labelMarks(plot) : [])],
  };
}

/** The rule of a cursor and a disc on every line that has a value there. */
export function cursorMarks({ panel, lines }: Plot, place: number): Mark[] {
  if (!within(panel.x, place)) return [];
  const x = along(panel.x, place);
  const drawn = { logX: panel.x.kind === 'log', logY: panel.y.kind === 'log' };
  const rule: Mark = {
    tag: 'line',
    attributes: { x1: x, x2: x, y1: 0, y2: panel.y.length, stroke: colour('ink'), 'stroke-width': 1 },
  };
  const discs = lines.flatMap(({ runs, style }): Mark[] => {
    const value = readRuns(runs, place, drawn);
    if (value === null || !within(panel.y, value)) return [];
    const attributes = {
      cx: x,
      cy: pixelY(panel, value),
      r: 4,
      fill: colour('paper'),
      stroke: style.stroke,
      'stroke-width': 2,
    };
    return [{ tag: 'circle', attributes }];
  });
  return [rule, ...discs];
}

function curveMarks(plot: Plot, { runs, style }: PlottedLine): Mark[] {
  return runs.map((run) =>
    run.x.length > 1
      ? stroke(pathOf(plot, run), style)
      : {
          tag: 'circle',
          attributes: { ...at(plot, run), r: 2.5, fill: style.stroke },
        },
  );
}

function at({ panel }: Plot, { x, y }: Run) {
  return { cx: along(panel.x, x[0] ?? 1), cy: pixelY(panel, y[0] ?? 1) };
}

function floorMarks(plot: Plot, { floor = [], style }: PlottedLine): Mark[] {
  return floor.map((run) => stroke(pathOf(plot, run), { ...style, dash: [4, 2], weight: 1 }));
}

function stroke(d: string, { stroke: line, dash, weight }: PlottedLine['style']): Mark {
  const dashes = dash.length > 0 ? { 'stroke-dasharray': dash.join(' ') } : {};
  return {
    tag: 'path',
    attributes: {
      d,
      fill: 'none',
      stroke: line,
      'stroke-width': weight,
      'stroke-linejoin': 'round',
      ...dashes,
    },
  };
}

/** An interval as an area; where its lower end has no place on the axis it goes down to the lower edge. */
function bandMarks(plot: Plot, { edges, style }: PlottedLine): Mark[] {
  if (!edges) return [];
  const lower = joined(edges.low);
  const lows = new Map(lower.x.map((place, i) => [place, lower.y[i]]));
  const lowest = plot.panel.y.domain[0];
  return edges.high.map((run) => {
    const under = run.x.map((place) => Math.max(lows.get(place) ?? lowest, lowest));
    const back = pathOf(plot, { x: run.x.toReversed(), y: under.toReversed() }).replace('M', 'L');
    return {
      tag: 'path',
      attributes: { d: `${pathOf(plot, run)}${back}Z`, fill: style.stroke, 'fill-opacity': 0.16 },
    };
  });
}

const pathOf = ({ panel }: Plot, { x, y }: Run): string =>
  x
    .map(
      (place, i) =>
        `${i === 0 ? 'M' : 'L'}${pixel(along(panel.x, place))} ${pixel(pixelY(panel, y[i] ?? 1))}`,
    )
    .join('');

const pixel = (value: number): string => String(Math.round(value * 10) / 10);

function labelMarks({ lines, panel, frame }: Plot): Mark[] {
  const { labels, leads } = endLabels(lines, panel, frame);
  const strokes = leads.map(
    ({ px, py, px2, py2 }): Mark => ({
      tag: 'line',
      attributes: {
        ...{ x1: Number(px), y1: Number(py), x2: Number(px2), y2: Number(py2) },
        ...{ stroke: colour('soft'), 'stroke-dasharray': '1 2' },
      },
    }),
  );
  const names = labels.flatMap(({ px, py, text, fill }) =>
    (Array.isArray(text) ? text : []).map((part: unknown, i): Mark => {
      const place = { x: Number(px), y: Number(py) + i * lineHeight + 4.5 };
      const mark = words(String(part), place, 'start', 'ink');
      return { ...mark, attributes: { ...mark.attributes, fill: String(fill) } };
    }),
  );
  return [...strokes, ...names];
}
