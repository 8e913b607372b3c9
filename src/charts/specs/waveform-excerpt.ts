import { assemble } from '../assemble.ts';
import { curveRows, type DrawnLine, endLabels } from '../curves.ts';
import { excerptOf } from '../excerpt.ts';
import { fixed, listed, prefixFor, significant, withPrefix } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { lineLayer, type Panel, panelRules, strokeLayer, textLayer, xChannel, yChannel } from '../layers.ts';
import { absentReasons, excerptStart, leftOutNotes, leftOutOf } from '../messages.ts';
import { extent, type Sorted, sortReadings } from '../readings.ts';
import { columnTable } from '../table.ts';
import { type LineStyle, lineStyle } from '../theme.ts';
import { linearTicks, plainTick, roundDomain, type Ticks } from '../ticks.ts';
import type {
  ChartLayer,
  ChartResult,
  ChartSize,
  ChartTable,
  ChartText,
  WaveformExcerptData,
} from '../types.ts';

/** Channels whose sizes differ by more than this stand in panels of their own. */
const mostApart = 4;
const columnWidth = 1.5;
const gap = 44;

type Line = DrawnLine & { sorted: Sorted; unit: string; low: number; high: number };

/** Lines that share a vertical axis, with the prefix of its unit. */
interface Group {
  lines: Line[];
  unit: string;
  factor: number;
  panel: Panel;
}

/**
 * A few cycles of the channels of a record against time. Channels of one unit and about one size share a panel;
 * others stand below each other on the same time axis. With fewer than two samples, or without a rate, it is absent.
 */
export function waveformExcerpt(data: WaveformExcerptData, size: ChartSize = 'wide'): ChartResult {
  const excerpt = excerptOf(data);
  const duration = excerpt.seconds.at(-1) ?? 0;
  const time = prefixFor(duration);
  const seconds = excerpt.seconds.map((second) => second / time.factor);
  const lines = excerpt.channels.map((channel, i) => lineOf(channel, seconds, styleIndex(data.channels, i)));
  const begin = excerpt.startS > 0 ? [excerptStart(withPrefix(excerpt.startS, 's', 3))] : [];
  const notes = [...begin, ...leftOutNotes(lines.map(({ name, sorted }) => leftOutOf(name, sorted)))];
  const table = tableOf(data, excerpt, notes);
  if (!(data.rateHz > 0)) return { absent: absentReasons.noRate, table };
  if (duration === 0 || !lines.some(({ runs }) => runs.some(({ x }) => x.length > 1))) {
    return { absent: absentReasons.fewSamples(data.channels.map(({ name }) => name)), table };
  }
  const gathered = gather(lines);
  const frame = frameFor(
    size,
    gathered.some((group) => group.length > 1) ? lines.map(({ name }) => name) : [],
  );
  const groups = stack(gathered, frame, size);
  return {
    spec: specOf(groups, `${time.prefix}s`, frame),
    text: textOf(lines, excerpt.seconds, notes),
    table,
  };
}

function lineOf(
  { name, unit, values }: WaveformExcerptData['channels'][number],
  time: number[],
  style: number,
): Line {
  const sorted = sortReadings(time, values, { x: 'linear', y: 'linear' });
  const [low, high] = extent(sorted.runs.flatMap(({ y }) => y)) ?? [0, 0];
  return { name, unit, sorted, runs: sorted.runs, low, high, style: solid(style) };
}

/** Noise tears dashes apart, so that lines of a waveform differ in weight beside their colour. */
function solid(index: number): LineStyle {
  return { ...lineStyle(index), dash: [], weight: index === 0 ? 2 : 1.2 };
}

/** A response is always the first line of a pair and a stimulus the second. */
function styleIndex(channels: WaveformExcerptData['channels'], index: number): number {
  const roles = channels.map(({ role }) => role);
  const told = channels.length <= 2 && new Set(roles).size === roles.length && !roles.includes(null);
  return told ? Number(roles[index] === 'stimulus') : index;
}

function gather(lines: readonly Line[]): Line[][] {
  const groups: Line[][] = [];
  for (const line of lines) {
    const group = groups.find(([first]) => first !== undefined && alike(first, line));
    if (group === undefined) groups.push([line]);
    else group.push(line);
  }
  return groups;
}

function alike(a: Line, b: Line): boolean {
  const ratio = (a.high - a.low) / (b.high - b.low);
  return a.unit === b.unit && ratio <= mostApart && ratio >= 1 / mostApart;
}

function stack(gathered: readonly Line[][], frame: Frame, size: ChartSize): Group[] {
  const whole = size === 'wide' ? 270 : 250;
  const length = gathered.length === 1 ? whole : (whole * 1.2) / gathered.length;
  const times = extent(gathered.flat().flatMap(({ runs }) => runs.flatMap(({ x }) => x))) ?? [0, 1];
  return gathered.map((lines, i) => {
    const [low, high] = [
      Math.min(...lines.map((line) => line.low)),
      Math.max(...lines.map((line) => line.high)),
    ];
    const round = roundDomain(low, high, 4);
    const { factor, prefix } = prefixFor(Math.max(Math.abs(round[0]), Math.abs(round[1])));
    const domain = [round[0] / factor, round[1] / factor] as const;
    return {
      lines: lines.map((line) => ({
        ...line,
        runs: line.runs.map(({ x, y }) => ({ x, y: y.map((v) => v / factor) })),
      })),
      unit: `${prefix}${lines[0]?.unit ?? ''}`,
      factor,
      panel: {
        x: { kind: 'linear', domain: times, length: frame.width },
        y: {
          kind: 'linear',
          domain: domain[0] < domain[1] ? domain : [domain[0] - 1, domain[1] + 1],
          length,
        },
        top: i * (length + gap),
      },
    };
  });
}

function specOf(groups: readonly Group[], timeUnit: string, frame: Frame) {
  const height = groups.reduce((sum, { panel }) => Math.max(sum, panel.top + panel.y.length), 0);
  const ends = groups.map(({ lines, panel }) =>
    lines.length > 1 ? endLabels(lines, panel, frame) : { labels: [], leads: [] },
  );
  const stacked = groups.length > 1;
  const spec = assemble(
    frame,
    height,
    [
      ...(stacked ? [strokeLayer('time-rule')] : []),
      ...groups.map((group, i) => groupLayer(group, `curve-${i}`, timeUnit, { ...frame, grid: !stacked })),
      strokeLayer('lead'),
      textLayer('label', 'left'),
    ],
    {
      ...(stacked
        ? { 'time-rule': groups.flatMap(({ panel }) => panelRules(timeTicks(panel), [panel])) }
        : {}),
      ...Object.fromEntries(
        groups.map(({ lines, panel }, i) => [`curve-${i}`, curveRows(lines, panel, columnWidth)]),
      ),
      lead: ends.flatMap(({ leads }) => leads),
      label: ends.flatMap(({ labels }) => labels),
    },
  );
  return stacked ? { ...spec, resolve: { scale: { y: 'independent' as const } } } : spec;
}

function groupLayer(
  { lines, unit, panel }: Group,
  data: string,
  timeUnit: string,
  frame: Frame & { grid: boolean },
): ChartLayer {
  const [only, other] = lines;
  const what = other === undefined ? (only?.name ?? '') : quantityOf(only?.unit ?? '');
  const x = xChannel('x', panel, {
    ticks: timeTicks(panel),
    title: `Time, ${timeUnit}`,
    print: plainTick,
    grid: frame.grid,
  });
  const ticks = linearTicks(panel.y, panel.y.length / 36);
  return lineLayer(
    data,
    x,
    yChannel('y', panel, { ...frame, grid: true, ticks, title: `${what}, ${unit}`, print: plainTick }),
  );
}

function timeTicks({ x }: Panel): Ticks {
  return linearTicks(x, x.length / 75);
}

function quantityOf(unit: string): string {
  return { V: 'Voltage', A: 'Current' }[unit] ?? 'Value';
}

function textOf(lines: readonly Line[], seconds: readonly number[], notes: readonly string[]): ChartText {
  const swings = lines.map(({ name, unit, low, high }) => `${name} ${withPrefix(high - low, unit, 3)}`);
  const duration = withPrefix(seconds.at(-1) ?? 0, 's', 3);
  const means = lines.map(
    ({ name, low, high, unit }) => `${name} from ${withPrefix(low, unit, 3)} to ${withPrefix(high, unit, 3)}`,
  );
  return {
    title: `${listed(swings)} peak to peak`,
    description: [`Waveform against time over ${duration}: ${listed(means)}.`, ...notes].join(' '),
  };
}

function tableOf(
  { source }: WaveformExcerptData,
  { seconds, channels }: ReturnType<typeof excerptOf>,
  notes: readonly string[],
): ChartTable {
  const print = (value: number) => significant(value, 4);
  return columnTable(
    [
      { title: 'Time', unit: 's', values: seconds, print: (value) => fixed(value, 9) },
      ...channels.map(({ name, unit, values }) => ({ title: name, unit, values, print })),
    ],
    notes,
    source,
  );
}
