import { assemble, type Row } from '../assemble.ts';
import { along, within } from '../axis.ts';
import { compareLines, comparisonTitle } from '../comparison.ts';
import { crossings } from '../crossings.ts';
import { curveRows, endLabels, loneRows } from '../curves.ts';
import {
  type Band,
  bandRows,
  canBeDrawn,
  type DistortionLine,
  percentChannel,
  percentNumbers,
  printPercent,
  sortRatios,
  upperEdges,
} from '../distortion.ts';
import { onePanel, powerAxis, withEdges } from '../explored.ts';
import { listed, percent, significant, withPrefix } from '../format.ts';
import { type Frame, fitted, frameFor } from '../frame.ts';
import {
  bandLayer,
  lineLayer,
  loneLayer,
  type Panel,
  pixelY,
  strokeLayer,
  symbolLayer,
  textLayer,
} from '../layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { percentOverPower, powerChannel } from '../power.ts';
import { joined } from '../readings.ts';
import { linesTable } from '../table.ts';
import { colour, lineStyle } from '../theme.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, ThdAgainstPowerData } from '../types.ts';

/** The ratios at which the power is marked. */
const markRatios = [0.01, 0.03, 0.1];

interface Mark {
  ratio: number;
  powerW: number;
}

type Line = DistortionLine & { marks: Mark[] };

/**
 * Distortion in per cent against output power, both logarithmic, with rules at 1, 3 and 10 % and marks at the
 * powers where they are reached. Needs two neighbouring positive readings on one line; without them it is absent.
 */
export function thdAgainstPower(data: ThdAgainstPowerData, size: ChartSize = 'wide'): ChartResult {
  const lines = data.series.map((series, i): Line => {
    const sorted = sortRatios(series.powerW, series.ratio);
    return {
      name: series.name,
      sorted,
      runs: sorted.runs,
      style: lineStyle(i),
      marks: marksOf(series, sorted.runs),
    };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!canBeDrawn(lines))
    return { absent: absentReasons.fewReadings(`${data.quantity} against power`), table };
  const { frame, plot: panel } = fitted(
    frameFor(size, lines.length > 1 ? lines.map(({ name }) => name) : []),
    ({ width }) => percentOverPower([...lines, ...upperEdges(bandsOf(data))], width, size),
    percentNumbers,
  );
  const explored = onePanel(
    powerAxis,
    { quantity: data.quantity, unit: '%', kind: 'log' },
    withEdges(lines, data.series, ({ powerW }) => powerW),
  );
  return { spec: specOf(data, lines, panel, frame), text: textOf(data, lines, notes), table, ...explored };
}

/** The stated marks, or the first power at which the line rises through each ratio. */
function marksOf({ marks }: ThdAgainstPowerData['series'][number], runs: Line['runs']): Mark[] {
  const onLogAxes = { logX: true, logY: true };
  const read = (ratio: number) =>
    runs.flatMap((run) => crossings(run, ratio * 100, onLogAxes)).find(({ rising }) => rising)?.x ?? null;
  const found = marks ?? markRatios.map((ratio) => ({ ratio, powerW: read(ratio) }));
  return found.flatMap(({ ratio, powerW }) => (powerW === null ? [] : [{ ratio, powerW }]));
}

function bandsOf({ series }: ThdAgainstPowerData): Band[] {
  return series.flatMap(({ powerW: x, low, high }, i) =>
    low === undefined || high === undefined ? [] : [{ x, low, high, fill: lineStyle(i).stroke }],
  );
}

function specOf(data: ThdAgainstPowerData, lines: readonly Line[], panel: Panel, frame: Frame) {
  const x = powerChannel(panel);
  const named = markRatios.map((ratio) => ratio * 100).filter((value) => within(panel.y, value));
  const y = (field: string) => percentChannel(field, panel, frame, { title: `${data.quantity}, %`, named });
  const { labels, leads } = lines.length > 1 ? endLabels(lines, panel, frame) : { labels: [], leads: [] };
  const marks = lines.flatMap((line) => markRows(line, panel));
  return assemble(
    frame,
    panel.y.length,
    [
      bandLayer('band', x, y('high'), 'low'),
      strokeLayer('limit'),
      lineLayer('curve', x, y('y')),
      loneLayer('lone', x, y('y')),
      strokeLayer('lead'),
      symbolLayer('mark'),
      textLayer('mark-label', 'right'),
      textLayer('label', 'left'),
    ],
    {
      band: bandsOf(data).flatMap((band, i) => bandRows(band, panel, i)),
      limit: named.map((value) => ruleRow(value, panel)),
      curve: curveRows(lines, panel),
      lone: loneRows(lines),
      lead: leads,
      mark: marks,
      'mark-label':
        lines.length === 1
          ? marks.map(({ px, py, text }) => ({ px: px - 9, py: py - 10, text, fill: colour('ink') }))
          : [],
      label: labels,
    },
  );
}

interface MarkRow extends Row {
  px: number;
  py: number;
  text: string[];
}

function markRows({ marks, style }: Line, panel: Panel): MarkRow[] {
  return marks
    .filter(({ ratio, powerW }) => within(panel.y, ratio * 100) && within(panel.x, powerW))
    .map(({ ratio, powerW }) => ({
      px: along(panel.x, powerW),
      py: pixelY(panel, ratio * 100),
      text: [withPrefix(powerW, 'W')],
      shape: 'circle',
      fill: colour('paper'),
      stroke: style.stroke,
    }));
}

function ruleRow(value: number, panel: Panel): Row {
  const py = pixelY(panel, value);
  return { px: 0, py, px2: panel.x.length, py2: py, stroke: colour('soft'), dash: [1, 3] };
}

function textOf(
  { quantity }: ThdAgainstPowerData,
  lines: readonly Line[],
  notes: readonly string[],
): ChartText {
  const names = listed(lines.map(({ name }) => name));
  const what = `${quantity} of ${names} in per cent against output power in watts, both on logarithmic axes.`;
  const marks = lines.flatMap(({ name, marks: found }) =>
    found.length === 0 ? [] : [`${name}: ${marksText(found)}.`],
  );
  return { title: titleOf(quantity, lines), description: [what, ...marks, ...notes].join(' ') };
}

function marksText(marks: readonly Mark[]): string {
  return listed(marks.map(({ ratio, powerW }) => `${percent(ratio)} at ${withPrefix(powerW, 'W')}`));
}

function titleOf(quantity: string, lines: readonly Line[]): string {
  const [one, other, third] = lines;
  if (one === undefined) return quantity;
  if (other === undefined) return singleTitle(quantity, one);
  const shared = [0.03, 0.1, 0.01].find((ratio) =>
    lines.every(({ marks }) => marks.some((mark) => mark.ratio === ratio)),
  );
  if (shared !== undefined)
    return `${percent(shared)} ${quantity}: ${listed(lines.map((line) => powerAt(line, shared)))}`;
  const comparison = third === undefined ? compareLines(joined(one.runs), joined(other.runs)) : null;
  if (comparison === null) return `${quantity} against output power`;
  return `${quantity}: ${comparisonTitle([one.name, other.name], comparison, (power) => withPrefix(power, 'W'))}`;
}

function powerAt({ name, marks }: Line, ratio: number): string {
  return `${name} at ${withPrefix(marks.find((mark) => mark.ratio === ratio)?.powerW ?? 0, 'W')}`;
}

function singleTitle(quantity: string, { marks, runs }: Line): string {
  if (marks.length > 0) return `${quantity} reaches ${marksText(marks)}`;
  const { x, y } = joined(runs);
  const highest = y.reduce((a, b) => Math.max(a, b));
  const until = x.reduce((a, b) => Math.max(a, b));
  return `${quantity} stays at or below ${percent(highest / 100)} up to ${withPrefix(until, 'W')}`;
}

function tableOf({ quantity, series, source }: ThdAgainstPowerData, notes: readonly string[]): ChartTable {
  return linesTable(
    {
      x: { title: 'Output power', unit: 'W', print: (value) => significant(value, 4) },
      lines: series.map(({ name, powerW, ratio }) => ({ name, x: powerW, values: ratio })),
      value: { title: quantity, unit: '%', print: printPercent },
    },
    notes,
    source,
  );
}
