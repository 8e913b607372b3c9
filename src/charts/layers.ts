import type { Row } from './assemble.ts';
import { type Axis, along, below } from './axis.ts';
import { lineHeight } from './end-labels.ts';
import { type Frame, rowHeight } from './frame.ts';
import { chartFont, colour, fontSize } from './theme.ts';
import { isDecade, type TickPrint, type Ticks } from './ticks.ts';
import type { ChartLayer } from './types.ts';

/** A vertical axis with its place: `top` is the distance of its high end from the top of the plot. */
export interface Panel {
  x: Axis;
  y: Axis;
  top: number;
}

/** What stands at an axis; `grid: false` leaves its rules to {@link panelRules}. */
interface AxisText {
  ticks: Ticks;
  grid?: boolean;
  title: string;
  print: TickPrint;
}

const decadeTest = `abs(log(datum.value)/LN10-round(log(datum.value)/LN10))<1e-9`;

/** Vertical place of a value, in pixels from the top of the plot. */
export function pixelY({ y, top }: Panel, value: number): number {
  return top + below(y, value);
}

/** The horizontal channel of a layer. Layers on one axis state the same axis. */
export function xChannel(field: string, { x }: Panel, text: AxisText) {
  return {
    field,
    type: 'quantitative' as const,
    scale: scaleOf(x, [0, x.length]),
    axis: { ...axisParts(x, text), titleAnchor: 'end' as const, titlePadding: 6 },
  };
}

/** The vertical channel of a layer; the title of its axis stands above its high end, at the left edge. */
export function yChannel(field: string, { y, top }: Panel, text: AxisText & Pick<Frame, 'left' | 'rows'>) {
  return {
    field,
    type: 'quantitative' as const,
    scale: scaleOf(y, [top + y.length, top]),
    axis: {
      ...axisParts(y, text),
      orient: 'left' as const,
      domain: false,
      titleAngle: 0,
      titleAlign: 'left' as const,
      titleBaseline: 'alphabetic' as const,
      titleX: 2 - text.left,
      titleY: top - 14 - text.rows * rowHeight,
    },
  };
}

function scaleOf({ kind, domain }: Axis, range: [number, number]) {
  return {
    type: kind,
    domain: [...domain],
    range,
    nice: false,
    ...(kind === 'linear' ? { zero: false } : {}),
  };
}

function axisParts({ kind }: Axis, { ticks, title, print, grid = true }: AxisText) {
  const all = ticks.labelled.length === ticks.values.length;
  return {
    values: ticks.values,
    grid,
    title,
    labelExpr: all
      ? print.expression
      : `indexof(${JSON.stringify(ticks.labelled)},datum.value)<0?'':${print.expression}`,
    ...(kind === 'log' && ticks.values.some(isDecade) ? { gridColor: decadeColour } : {}),
  };
}

const decadeColour = {
  condition: { test: decadeTest, value: colour('decade') },
  value: colour('rule'),
};

/** Rules of the horizontal axis through panels that stand below each other, for a stroke layer. */
export function panelRules({ values }: Ticks, panels: readonly Panel[]): Row[] {
  return panels.flatMap(({ x, y, top }) =>
    values.map((value) => ({
      px: along(x, value),
      py: top,
      px2: along(x, value),
      py2: top + y.length,
      stroke: colour(x.kind === 'log' && isDecade(value) ? 'decade' : 'rule'),
      dash: [],
    })),
  );
}

/** A place given in pixels by a field of the data. */
export function pixels(field: string) {
  return { field, type: 'quantitative' as const, scale: null };
}

const asIs = (field: string) => ({ field, type: 'nominal' as const, scale: null, legend: null });

/** Lines: one path per `run`, styled by the fields `stroke`, `dash` and `weight`, joined in the order of `at`. */
export function lineLayer(
  data: string,
  x: ReturnType<typeof xChannel>,
  y: ReturnType<typeof yChannel>,
): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'line', clip: true, strokeJoin: 'round' },
    encoding: {
      x,
      y,
      order: { field: 'at', type: 'quantitative' },
      detail: { field: 'run', type: 'nominal' },
      stroke: asIs('stroke'),
      strokeDash: asIs('dash'),
      strokeWidth: { field: 'weight', type: 'quantitative', scale: null, legend: null },
    },
  };
}

/** A translucent band between the vertical field and the field `low`, one area per `run` in its `fill`. */
export function bandLayer(
  data: string,
  x: ReturnType<typeof xChannel>,
  y: ReturnType<typeof yChannel>,
  low: string,
): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'area', clip: true, fillOpacity: 0.14, opacity: 1 },
    encoding: { x, y, y2: { field: low }, detail: { field: 'run', type: 'nominal' }, fill: asIs('fill') },
  };
}

/** Single readings that no line passes through. */
export function loneLayer(
  data: string,
  x: ReturnType<typeof xChannel>,
  y: ReturnType<typeof yChannel>,
): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'point', size: 28, strokeWidth: 1.5, clip: true },
    encoding: { x, y, stroke: asIs('stroke') },
  };
}

/** Symbols at pixel places `px`, `py`; shape, fill and stroke come from the data. */
export function symbolLayer(data: string): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'point', size: 44, strokeWidth: 1.4, opacity: 1 },
    encoding: {
      x: pixels('px'),
      y: pixels('py'),
      shape: asIs('shape'),
      fill: asIs('fill'),
      stroke: asIs('stroke'),
    },
  };
}

/** Straight strokes between pixel places, in the colour and dash of the data. */
export function strokeLayer(data: string): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'rule', strokeWidth: 1 },
    encoding: {
      x: pixels('px'),
      y: pixels('py'),
      x2: { field: 'px2' },
      y2: { field: 'py2' },
      stroke: asIs('stroke'),
      strokeDash: asIs('dash'),
    },
  };
}

type Align = 'left' | 'center' | 'right';

/** Text at pixel places; `text` holds one line or several. */
export function textLayer(data: string, align: Align): ChartLayer {
  return {
    data: { name: data },
    mark: { type: 'text', align, baseline: 'middle', lineHeight, font: chartFont, fontSize },
    encoding: {
      x: pixels('px'),
      y: pixels('py'),
      text: { field: 'text', type: 'nominal' },
      fill: asIs('fill'),
    },
  };
}

/** A margin of paper around text that stands on lines; goes below the text itself. */
export function haloLayer(data: string, align: Align): ChartLayer {
  const paper = colour('paper');
  return {
    data: { name: data },
    mark: {
      type: 'text',
      align,
      baseline: 'middle',
      lineHeight,
      font: chartFont,
      fontSize,
      fill: paper,
      stroke: paper,
      strokeWidth: 5,
      strokeJoin: 'round',
    },
    encoding: { x: pixels('px'), y: pixels('py'), text: { field: 'text', type: 'nominal' } },
  };
}
