import type { DrawnLine } from '../curves.ts';
import { canBeDrawn } from '../distortion.ts';
import { onePanel } from '../explored.ts';
import { fixed, percent, withPrefix } from '../format.ts';
import { frameFor } from '../frame.ts';
import type { Panel } from '../layers.ts';
import { linePanelSpec } from '../line-panel.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, joined, type Sorted, sortReadings } from '../readings.ts';
import { columnTable } from '../table.ts';
import { lineStyle } from '../theme.ts';
import { roundDomain } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartTable,
  ChartText,
  CurrentsOverCycleData,
  Readings,
} from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

/** Plate currents of both sides of a pair in milliamperes over one cycle. Without two neighbouring readings it is absent. */
export function currentsOverCycle(data: CurrentsOverCycleData, size: ChartSize = 'wide'): ChartResult {
  const lines = [
    lineOf('first side', data.degrees, data.firstA, 0),
    lineOf('second side', data.degrees, data.secondA, 1),
  ];
  const notes = leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data);
  if (!canBeDrawn(lines)) return { absent: absentReasons.fewReadings('plate current over the cycle'), table };
  const frame = frameFor(
    size,
    lines.map(({ name }) => name),
  );
  const panel = panelOf(lines, frame.width, size);
  const spec = linePanelSpec(lines, panel, frame, {
    named: lines,
    x: 'Degrees from the crest of the first grid',
    y: 'Plate current, mA',
  });
  const across = { quantity: 'From the crest of the first grid', unit: '°', kind: 'linear' as const };
  const up = { quantity: 'Plate current', unit: 'mA', kind: 'linear' as const };
  return { spec, text: textOf(data, lines, notes), table, ...onePanel(across, up, lines) };
}

function lineOf(name: string, degrees: Readings, amperes: Readings, style: number): Line {
  const milliamperes = Array.from(amperes, (value) => (value === null ? null : 1000 * value));
  const sorted = sortReadings(degrees, milliamperes, { x: 'linear', y: 'linear' });
  return { name, sorted, runs: sorted.runs, style: lineStyle(style) };
}

function panelOf(lines: readonly Line[], width: number, size: ChartSize): Panel {
  const [, most] = extent(lines.flatMap(({ runs }) => joined(runs).y)) ?? [0, 1];
  return {
    x: { kind: 'linear', domain: [0, 360], length: width },
    y: {
      kind: 'linear',
      domain: roundDomain(0, most > 0 ? most : 1, 5),
      length: size === 'wide' ? 240 : 210,
    },
    top: 0,
  };
}

function textOf(
  { cutOffShare }: CurrentsOverCycleData,
  lines: readonly Line[],
  notes: readonly string[],
): ChartText {
  const [, most] = extent(lines.flatMap(({ runs }) => joined(runs).y)) ?? [0, 0];
  const crest = `the current of a side reaches ${withPrefix(most / 1000, 'A')}`;
  return {
    title:
      cutOffShare === 0
        ? `Both sides conduct throughout the cycle; ${crest}`
        : `Each side is cut off for ${percent(cutOffShare)} of the cycle; ${crest}`,
    description: [
      'Plate current of each side in milliamperes over one cycle of a sine at full drive.',
      ...notes,
    ].join(' '),
  };
}

function tableOf({ degrees, firstA, secondA, source }: CurrentsOverCycleData): ChartTable {
  const milliamperes = (values: Readings) =>
    Array.from(values, (value) => (value === null ? null : 1000 * value));
  const print = (value: number) => fixed(value, 1);
  return columnTable(
    [
      { title: 'From the crest of the first grid', unit: '°', values: degrees, print },
      { title: 'First side', unit: 'mA', values: milliamperes(firstA), print },
      { title: 'Second side', unit: 'mA', values: milliamperes(secondA), print },
    ],
    [],
    source,
  );
}
