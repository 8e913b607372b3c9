import { along, within } from '../charts/axis.ts';
import { endLabels } from '../charts/curves.ts';
import { lineHeight } from '../charts/end-labels.ts';
import { pixelY } from '../charts/layers.ts';
import type { Run } from '../charts/readings.ts';
import { chartFont, colour, fontSize, numberPadding } from '../charts/theme.ts';
import { isDecade, linearTicks, logTicks, plainTick, prefixedTick, type Ticks } from '../charts/ticks.ts';
import { valuesAt } from './cursor.ts';
import type { Plot, PlottedTrace } from './plot.ts';
import type { View } from './views.ts';

/** One element of a drawing; `text` is its content. */
export interface Mark {
  tag: 'path' | 'line' | 'text' | 'circle';
  attributes: Readonly<Record<string, string | number>>;
  text?: string;
}

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

/** Draws an overlay: rules, intervals, noise floors, lines with their names at the ends, and the cursor. */
export function sceneOf(plot: Plot, view: View, unit: string): Scene {
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
    around: [...axisMarks(plot, view, unit), ...labelMarks(plot)],
  };
}

/** The rule of a cursor and a disc on every line that has a value there. */
export function cursorMarks({ panel, lines }: Plot, place: number): Mark[] {
  if (!within(panel.x, place)) return [];
  const x = along(panel.x, place);
  const traces = lines.map(({ trace }) => trace);
  const rule: Mark = {
    tag: 'line',
    attributes: { x1: x, x2: x, y1: 0, y2: panel.y.length, stroke: colour('ink'), 'stroke-width': 1 },
  };
  const discs = valuesAt(traces, place).flatMap(({ value }, i): Mark[] => {
    if (value === null || !within(panel.y, value)) return [];
    const stroke = lines[i]?.style.stroke ?? colour('ink');
    const attributes = {
      cx: x,
      cy: pixelY(panel, value),
      r: 4,
      fill: colour('paper'),
      stroke,
      'stroke-width': 2,
    };
    return [{ tag: 'circle', attributes }];
  });
  return [rule, ...discs];
}

function curveMarks(plot: Plot, { runs, style }: PlottedTrace): Mark[] {
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

function floorMarks(plot: Plot, { floor, style }: PlottedTrace): Mark[] {
  return floor.map((run) => stroke(pathOf(plot, run), { ...style, dash: [4, 2], weight: 1 }));
}

function stroke(d: string, { stroke: line, dash, weight }: PlottedTrace['style']): Mark {
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
function bandMarks(plot: Plot, { edges, style, trace }: PlottedTrace): Mark[] {
  if (edges === null) return [];
  const { low = [] } = trace;
  const lowest = plot.panel.y.domain[0];
  return edges.high.map((run) => {
    const under = run.x.map((place) => Math.max(low[trace.x.indexOf(place)] ?? lowest, lowest));
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

function axisMarks(plot: Plot, view: View, unit: string): Mark[] {
  const { panel, frame } = plot;
  const print = view.along === 'power' ? plainTick : prefixedTick;
  const across = logTicks(panel.x, print);
  const up =
    panel.y.kind === 'log' ? logTicks(panel.y, plainTick, true) : linearTicks(panel.y, panel.y.length / 38);
  const title = view.along === 'power' ? 'Output power, W' : 'Frequency, Hz';
  return [
    ...rules(across, (value) => ({ x1: along(panel.x, value), y1: 0, y2: panel.y.length }), true),
    ...rules(
      up,
      (value) => ({ y1: pixelY(panel, value), x1: 0, x2: panel.x.length }),
      panel.y.kind === 'log',
    ),
    ...across.labelled.map((value) =>
      words(
        print.text(value),
        { x: along(panel.x, value), y: panel.y.length + numberPadding + 11 },
        'middle',
        'soft',
      ),
    ),
    ...up.labelled.map((value) =>
      words(plainTick.text(value), { x: -numberPadding, y: pixelY(panel, value) + 4.5 }, 'end', 'soft'),
    ),
    words(title, { x: panel.x.length, y: panel.y.length + 40 }, 'end', 'ink'),
    words(`${view.quantity}, ${unit}`, { x: 2 - frame.left, y: -14 }, 'start', 'ink'),
  ];
}

interface Ends {
  x1: number;
  y1: number;
  x2?: number;
  y2?: number;
}

function rules({ values }: Ticks, ends: (value: number) => Ends, decades: boolean): Mark[] {
  return values.map((value) => {
    const place = ends(value);
    const tone = decades && isDecade(value) ? 'decade' : 'rule';
    return {
      tag: 'line',
      attributes: { ...place, x2: place.x2 ?? place.x1, y2: place.y2 ?? place.y1, stroke: colour(tone) },
    };
  });
}

function words(
  text: string,
  place: { x: number; y: number },
  anchor: 'start' | 'middle' | 'end',
  tone: 'ink' | 'soft',
): Mark {
  return {
    tag: 'text',
    attributes: {
      ...place,
      'text-anchor': anchor,
      fill: colour(tone),
      'font-family': chartFont,
      'font-size': fontSize,
    },
    text,
  };
}

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
