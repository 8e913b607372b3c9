import { levelAspects, proportion } from '../aspect.ts';
import { assemble, type Row } from '../assemble.ts';
import { along } from '../axis.ts';
import { crossings } from '../crossings.ts';
import { curveRows, type DrawnLine, endLabels, logAxis, loneRows } from '../curves.ts';
import { frequencyAxis, onePanel } from '../explored.ts';
import { type FlatBand, flatBand, levelCentre } from '../flatness.ts';
import { decibels, fixed, hertz, listed, significant } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import {
  lineLayer,
  loneLayer,
  type Panel,
  pixelY,
  strokeLayer,
  symbolLayer,
  textLayer,
  yChannel,
} from '../layers.ts';
import { absentReasons, cutNotes, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, type Run, type Sorted, sortReadings } from '../readings.ts';
import { linesTable } from '../table.ts';
import { colour, lineStyle } from '../theme.ts';
import { linearTicks, plainTick, roundDomain, withNamed } from '../ticks.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, ResponseData } from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

const limits = [-1, -3];
const tolerances = [0.5, 1, 3];

/**
 * Level against logarithmic frequency in an aspect ratio of IEC 60263, with rules at −1 and −3 dB. With one
 * channel the frequencies at −3 dB are marked. Needs two readings next to each other; without them it is absent.
 */
export function response(data: ResponseData, size: ChartSize = 'wide'): ChartResult {
  const lines = data.channels.map(({ name, frequencyHz, levelDb }, i): Line => {
    const sorted = sortReadings(frequencyHz, levelDb, { x: 'log', y: 'linear' });
    return { name, sorted, runs: sorted.runs, style: lineStyle(i) };
  });
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data, notes);
  if (!lines.some(({ runs }) => runs.some(({ x }) => x.length > 1))) {
    return { absent: absentReasons.fewReadings(`${data.quantity.toLowerCase()} against frequency`), table };
  }
  const frame = frameFor(size, lines.length > 1 ? lines.map(({ name }) => name) : []);
  const panel = panelOf(lines, frame, size);
  const text = textOf(data, lines, panel, [...cutNotes(lines, panel.y, 'dB'), ...notes]);
  const axis = { quantity: data.quantity, unit: unitOf(data), kind: 'linear' as const };
  return {
    spec: specOf(data, lines, panel, frame),
    text,
    table,
    ...onePanel(frequencyAxis, axis, lines),
  };
}

const unitOf = ({ referenceHz }: ResponseData): string =>
  `dB re ${referenceHz === null ? 'reference' : hertz(referenceHz)}`;

function panelOf(lines: readonly Line[], { width }: Frame, size: ChartSize): Panel {
  const runs = lines.flatMap((line) => line.runs);
  const x = logAxis(lines, width);
  const [lowest, highest] = extent(runs.flatMap((run) => run.y)) ?? [-3, 0];
  const [low, high] = roundDomain(Math.min(lowest, -4), Math.max(highest, 1), 8);
  const decades = Math.log10(x.domain[1] / x.domain[0]);
  const { unitLength, span } = proportion({
    aspects: levelAspects,
    span: high - low,
    decadeLength: width / decades,
    height: size === 'wide' ? 270 : 220,
  });
  return { x, y: { kind: 'linear', domain: [high - span, high], length: span * unitLength }, top: 0 };
}

function specOf(data: ResponseData, lines: readonly Line[], panel: Panel, frame: Frame) {
  const x = frequencyChannel(panel);
  const ticks = withNamed(linearTicks(panel.y, panel.y.length / 38), panel.y, limits);
  const title = `${data.quantity}, ${unitOf(data)}`;
  const y = yChannel('y', panel, { ticks, title, print: plainTick, left: frame.left, rows: 0 });
  const { labels, leads } = lines.length > 1 ? endLabels(lines, panel, frame) : { labels: [], leads: [] };
  const marks = lines.length === 1 ? limitMarks(lines[0]?.runs ?? [], panel) : [];
  return assemble(
    frame,
    panel.y.length,
    [
      lineLayer('curve', x, y),
      loneLayer('lone', x, y),
      strokeLayer('limit'),
      strokeLayer('lead'),
      symbolLayer('mark'),
      textLayer('low-mark', 'left'),
      textLayer('high-mark', 'right'),
      textLayer('label', 'left'),
    ],
    {
      curve: curveRows(lines, panel),
      lone: loneRows(lines),
      limit: limits.map((limit) => ruleRow(limit, panel)),
      lead: leads,
      mark: marks,
      'low-mark': marks.filter(({ rising }) => rising).map((mark) => beside(mark, 9)),
      'high-mark': marks.filter(({ rising }) => !rising).map((mark) => beside(mark, -9)),
      label: labels,
    },
  );
}

function ruleRow(limit: number, panel: Panel): Row {
  const py = pixelY(panel, limit);
  return { px: 0, py, px2: panel.x.length, py2: py, stroke: colour('soft'), dash: [1, 3] };
}

interface LimitMark extends Row {
  px: number;
  py: number;
  rising: boolean;
  frequencyHz: number;
}

/** Where a line first rises above and last falls below −3 dB. */
function limitMarks(runs: readonly Run[], panel: Panel): LimitMark[] {
  const found = runs.flatMap((run) => crossings(run, -3, { logX: true, logY: false }));
  const ends = [found.find(({ rising }) => rising), found.findLast(({ rising }) => !rising)];
  return ends.flatMap((end) =>
    end === undefined
      ? []
      : [
          {
            px: along(panel.x, end.x),
            py: pixelY(panel, -3),
            rising: end.rising,
            frequencyHz: end.x,
            shape: 'circle',
            fill: colour('paper'),
            stroke: colour('ink'),
          },
        ],
  );
}

function beside({ px, py, frequencyHz }: LimitMark, offset: number): Row {
  return { px: px + offset, py: py + 12, text: [hertz(frequencyHz)], fill: colour('ink') };
}

function textOf(data: ResponseData, lines: readonly Line[], panel: Panel, notes: string[]): ChartText {
  const [from, to] = panel.x.domain.map(hertz);
  const names = listed(lines.map(({ name }) => name));
  const what = `${data.quantity} of ${names} in decibels against frequency from ${from} to ${to}`;
  return {
    title: flatTitle(lines, data.referenceHz),
    description: [`${what}, with rules at −1 and −3 dB.`, ...notes].join(' '),
  };
}

function flatTitle(lines: readonly Line[], referenceHz: number | null): string {
  for (const tolerance of tolerances) {
    const bands = lines.map(({ runs }) => bandOf(runs, tolerance, referenceHz));
    if (bands.every(isWide)) return bandTitle(lines, bands, tolerance);
  }
  const most = decibels(tolerances.at(-1) ?? 3);
  return `No band of a decade around the reference stays within ${most}`;
}

function bandOf(runs: readonly Run[], tolerance: number, referenceHz: number | null): FlatBand | null {
  const bands = runs.map((run) => flatBand(run, tolerance, referenceHz ?? levelCentre(run)));
  return bands.find((band) => band !== null) ?? null;
}

function isWide(band: FlatBand | null): band is FlatBand {
  return band !== null && band.toHz >= 10 * band.fromHz;
}

function bandTitle(lines: readonly Line[], bands: readonly FlatBand[], tolerance: number): string {
  const within = `within ${decibels(tolerance, 1)}`;
  const [only] = bands;
  if (bands.length === 1 && only !== undefined) return `Flat ${within} ${rangeText(only)}`;
  return `Flat ${within}: ${listed(bands.map((band, i) => `${lines[i]?.name} ${rangeText(band)}`))}`;
}

function rangeText({ fromHz, toHz, openBelow, openAbove }: FlatBand): string {
  const range = `from ${hertz(fromHz)} to ${hertz(toHz)}`;
  return openBelow && openAbove ? `over the whole sweep, ${range}` : range;
}

function tableOf({ quantity, channels, source }: ResponseData, notes: readonly string[]): ChartTable {
  return linesTable(
    {
      x: { title: 'Frequency', unit: 'Hz', print: (value) => significant(value, 4) },
      lines: channels.map(({ name, frequencyHz, levelDb }) => ({ name, x: frequencyHz, values: levelDb })),
      value: { title: quantity, unit: 'dB', print: (value) => fixed(value, 2) },
    },
    notes,
    source,
  );
}
