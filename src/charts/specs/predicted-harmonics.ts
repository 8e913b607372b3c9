import { assemble, type Row } from '../assemble.ts';
import { along, within } from '../axis.ts';
import { valueAt } from '../crossings.ts';
import { curveRows, endLabels } from '../curves.ts';
import {
  canBeDrawn,
  type DistortionLine,
  percentChannel,
  percentNumbers,
  printPercent,
  sortRatios,
} from '../distortion.ts';
import { asPoints, onePanel, powerAxis } from '../explored.ts';
import { listed, ordinal, percent, significant, withPrefix } from '../format.ts';
import { type Frame, fitted, frameFor } from '../frame.ts';
import { lineLayer, type Panel, pixelY, strokeLayer, symbolLayer, textLayer } from '../layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { percentOverPower, powerChannel } from '../power.ts';
import { extent, joined } from '../readings.ts';
import { linesTable } from '../table.ts';
import { textWidth } from '../text-width.ts';
import { colour, fontSize, harmonicStyle } from '../theme.ts';
import type {
  ChartResult,
  ChartSize,
  ChartTable,
  ChartText,
  PredictedHarmonicsData,
  Readings,
} from '../types.ts';

type Line = DistortionLine & { order: number };

/**
 * Single harmonics over output power, by a model as thin lines and as measured in points, both axes logarithmic.
 * Without two neighbouring points of the model, or without anything measured, it is absent.
 */
export function predictedHarmonics(data: PredictedHarmonicsData, size: ChartSize = 'wide'): ChartResult {
  const model = linesOf(data.model, (order) => `H${order} model`);
  const measured = linesOf(data.measured, (order) => `H${order} measured`);
  const notes = leftOutNotes(measured.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(model) || measured.every(({ runs }) => runs.length === 0)) {
    return { absent: absentReasons.fewReadings('harmonics against power'), table };
  }
  const { frame, plot: panel } = fitted(
    frameFor(
      size,
      model.map(({ name }) => name),
      { rows: 1 },
    ),
    ({ width }) => percentOverPower([...model, ...measured], width, size),
    percentNumbers,
  );
  const points = measured.map((line) => ({ ...line, runs: asPoints(line.runs) }));
  return {
    spec: specOf(model, measured, panel, frame),
    text: textOf(data, model, measured, notes),
    table,
    ...onePanel(powerAxis, { quantity: 'Harmonic', unit: '%', kind: 'log' }, [...model, ...points]),
  };
}

function linesOf(
  { powerW, orders }: { powerW: Readings; orders: readonly { order: number; ratio: Readings }[] },
  nameOf: (order: number) => string,
): Line[] {
  return orders.map(({ order, ratio }) => {
    const sorted = sortRatios(powerW, ratio);
    const style = { ...harmonicStyle(order), weight: 1 };
    return { order, name: nameOf(order), sorted, runs: sorted.runs, style };
  });
}

function specOf(model: readonly Line[], measured: readonly Line[], panel: Panel, frame: Frame) {
  const x = powerChannel(panel);
  const y = percentChannel('y', panel, frame, { title: 'Harmonic, % of the fundamental' });
  const { labels, leads } = endLabels(model, panel, frame);
  const key = keyOf(measured);
  return assemble(
    frame,
    panel.y.length,
    [
      lineLayer('model', x, y),
      symbolLayer('measured'),
      strokeLayer('lead'),
      textLayer('label', 'left'),
      symbolLayer('key'),
      textLayer('key-label', 'left'),
    ],
    {
      model: curveRows(model, panel),
      measured: measured.flatMap((line) => pointRows(line, panel)),
      lead: leads,
      label: labels,
      key: key.symbols,
      'key-label': key.labels,
    },
  );
}

const shapes: Readonly<Record<number, string>> = { 2: 'circle', 3: 'diamond' };

const symbolOf = ({ order, style: { stroke } }: Line) => ({
  shape: shapes[order] ?? 'square',
  fill: colour('paper'),
  stroke,
});

function pointRows(line: Line, panel: Panel): Row[] {
  const { x, y } = joined(line.runs);
  return x.flatMap((place, i) => {
    const value = y[i] ?? 0;
    if (!within(panel.x, place) || !within(panel.y, value)) return [];
    return [{ px: along(panel.x, place), py: pixelY(panel, value), ...symbolOf(line) }];
  });
}

/** Says above the plot which symbol is which harmonic. */
function keyOf(measured: readonly Line[]): { symbols: Row[]; labels: Row[] } {
  let px = 5;
  const entries = measured.map((line) => {
    const entry = { line, px };
    px += textWidth(line.name, fontSize) + 30;
    return entry;
  });
  return {
    symbols: entries.map((entry) => ({ px: entry.px, py: -12, ...symbolOf(entry.line) })),
    labels: entries.map((entry) => ({
      ...{ px: entry.px + 10, py: -12, text: [entry.line.name], fill: colour('soft') },
    })),
  };
}

function textOf(
  { channel }: PredictedHarmonicsData,
  model: readonly Line[],
  measured: readonly Line[],
  notes: readonly string[],
): ChartText {
  const orders = listed(model.map(({ order }) => ordinal(order)));
  const [, most] = extent(model.flatMap(({ runs }) => joined(runs).x)) ?? [0, 0];
  const what = `The ${orders} harmonics of ${channel} in per cent of the fundamental against output power, as measured and by the model, which ends at ${withPrefix(most, 'W')}; both axes are logarithmic.`;
  return {
    title: titleOf(model, measured) ?? 'Harmonics as measured and by the model',
    description: [what, ...notes].join(' '),
  };
}

/** Both at one watt, or in the middle of the powers that both have. */
function titleOf(model: readonly Line[], measured: readonly Line[]): string | null {
  const place = sharedPower(model, measured);
  if (place === null) return null;
  const parts = model.flatMap((line) => {
    const other = measured.find(({ order }) => order === line.order);
    const [one, two] = [percentAt(other, place), percentAt(line, place)];
    if (one === null || two === null) return [];
    return [
      `${ordinal(line.order)} harmonic ${percent(one / 100)} measured, ${percent(two / 100)} by the model`,
    ];
  });
  return parts.length === 0 ? null : `At ${withPrefix(place, 'W')}: ${parts.join('; ')}`;
}

function percentAt(line: Line | undefined, place: number): number | null {
  return line ? valueAt(joined(line.runs), place, { logX: true, logY: true }) : null;
}

function sharedPower(model: readonly Line[], measured: readonly Line[]): number | null {
  const [one, two] = [model, measured].map((lines) => extent(lines.flatMap(({ runs }) => joined(runs).x)));
  if (!one || !two) return null;
  const [low, high] = [Math.max(one[0], two[0]), Math.min(one[1], two[1])];
  if (low >= high) return null;
  return low <= 1 && high >= 1 ? 1 : Math.sqrt(low * high);
}

function tableOf({ model, measured, source }: PredictedHarmonicsData, notes: readonly string[]): ChartTable {
  const lines = [
    ...measured.orders.map(({ order, ratio }) => ({
      name: `H${order} measured`,
      x: measured.powerW,
      values: ratio,
    })),
    ...model.orders.map(({ order, ratio }) => ({
      name: `H${order} by the model`,
      x: model.powerW,
      values: ratio,
    })),
  ];
  return linesTable(
    {
      x: { title: 'Output power', unit: 'W', print: (value) => significant(value, 4) },
      lines,
      value: { title: 'Harmonic', unit: '%', print: printPercent },
    },
    notes,
    source,
  );
}
