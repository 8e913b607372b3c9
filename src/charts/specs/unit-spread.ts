import { assemble, type Row } from '../assemble.ts';
import { type Axis, along } from '../axis.ts';
import { counted, listed, prefixFor, significant } from '../format.ts';
import { type Frame, frameFor } from '../frame.ts';
import { haloLayer, pixels, strokeLayer, textLayer, xChannel } from '../layers.ts';
import { absentReasons } from '../messages.ts';
import { extent } from '../readings.ts';
import { textWidth } from '../text-width.ts';
import { colour, fontSize } from '../theme.ts';
import { linearTicks, plainTick } from '../ticks.ts';
import type { ChartLayer, ChartResult, ChartSpec, ChartTable, ChartText, UnitSpreadData } from '../types.ts';

/** Values in the unit of the axis. */
interface Shown {
  unit: string;
  dots: { unit: string; value: number; isOutside: boolean }[];
  limits: { word: string; value: number }[];
}

const dotHeight = 12;

/**
 * A dot for every unit of a batch on one line, with the limits stated for them; designed for half a page or a phone.
 * Fewer than two dots are no chart.
 */
export function unitSpread(data: UnitSpreadData): ChartResult {
  const shown = shownOf(data);
  const table = tableOf(data, shown);
  if (shown.dots.length < 2) return { absent: absentReasons.fewUnits(data.name), table };
  const { width, ...margins } = frameFor('narrow', []);
  const right = 44;
  const frame: Frame = { ...margins, top: 26, right, width: width + margins.right - right };
  const x = axisOf(shown, frame.width);
  const dots = stacked(shown, x);
  const spec = specOf(data.name, shown, { frame, x, dots });
  return { spec, text: textOf(data, shown), table };
}

interface Plot {
  frame: Frame;
  x: Axis;
  dots: readonly Stacked[];
}

function specOf(name: string, { unit, limits }: Shown, { frame, x, dots }: Plot): ChartSpec {
  const height = 34 + (Math.max(...dots.map(({ level }) => level)) + 1) * dotHeight;
  const outside = dots.filter(({ isOutside }) => isOutside);
  const words = limits.map(({ word, value }) => wordRow(word, along(x, value)));
  return assemble(
    frame,
    height,
    [
      strokeLayer('limit'),
      textLayer('least', 'right'),
      textLayer('most', 'left'),
      dotLayer(name, unit, x),
      haloLayer('label', 'center'),
      textLayer('label', 'center'),
    ],
    {
      limit: limits.map(({ value }) => limitRow(along(x, value), height)),
      least: words.filter(({ word }) => word === 'least'),
      most: words.filter(({ word }) => word === 'most'),
      dot: dots.map(({ value, level, isOutside }) => ({
        ...{ x: value, py: height - 10 - level * dotHeight, fill: colour(isOutside ? 'ink' : 'data2') },
      })),
      label: labelRows(outside, frame),
    },
  );
}

/** Names of units over their dots, as many as have room beside each other. */
function labelRows(dots: readonly Stacked[], { width, left, right }: Frame): Row[] {
  const rows: Row[] = [];
  let taken = Number.NEGATIVE_INFINITY;
  for (const { px, unit } of dots) {
    const half = textWidth(unit, fontSize) / 2;
    const at = Math.min(Math.max(px, half - left), width + right - half);
    if (at - half < taken + 6) continue;
    taken = at + half;
    rows.push({ px: at, py: 7, text: [unit], fill: colour('ink') });
  }
  return rows;
}

function shownOf({ unit, values, least, most }: UnitSpreadData): Shown {
  const limits = [
    { word: 'least', value: least },
    { word: 'most', value: most },
  ].flatMap(({ word, value }) => (value === null ? [] : [{ word, value }]));
  const largest = Math.max(0, ...[...values, ...limits].map(({ value }) => Math.abs(value)));
  const { factor, prefix } = scaleOf(unit, largest);
  const scaled = <T extends { value: number }>(one: T): T => ({
    ...one,
    value: Number((one.value / factor).toPrecision(12)),
  });
  return {
    unit: unit === '1' ? '%' : `${prefix}${unit}`,
    dots: values.map(scaled),
    limits: limits.map(scaled),
  };
}

function scaleOf(unit: string, largest: number): { factor: number; prefix: string } {
  if (unit === '1') return { factor: 0.01, prefix: '' };
  return ['dB', '°', '°C'].includes(unit) ? { factor: 1, prefix: '' } : prefixFor(largest);
}

function axisOf({ dots, limits }: Shown, length: number): Axis {
  const [low, high] = extent([...dots, ...limits].map(({ value }) => value)) ?? [0, 1];
  const edge = 0.08 * (high - low || Math.abs(high) || 1);
  return { kind: 'linear', domain: [low - edge, high + edge], length };
}

type Stacked = Shown['dots'][number] & { px: number; level: number };

/** Puts dots that would cover each other above each other. */
function stacked({ dots }: Shown, x: Axis): Stacked[] {
  const placed: Stacked[] = [];
  for (const dot of dots.toSorted((a, b) => a.value - b.value)) {
    const px = along(x, dot.value);
    const near = placed.filter((other) => Math.abs(other.px - px) < dotHeight).map(({ level }) => level);
    const free = Array.from({ length: near.length + 1 }, (_, level) => level).find(
      (level) => !near.includes(level),
    );
    placed.push({ ...dot, px, level: free ?? 0 });
  }
  return placed;
}

function dotLayer(name: string, unit: string, x: Axis): ChartLayer {
  const ticks = linearTicks(x, x.length / 60);
  const panel = { x, y: x, top: 0 };
  return {
    data: { name: 'dot' },
    mark: { type: 'point', size: 58, strokeWidth: 0, opacity: 1 },
    encoding: {
      x: xChannel('x', panel, { ticks, title: `${name}, ${unit}`, print: plainTick }),
      y: pixels('py'),
      fill: { field: 'fill', type: 'nominal', scale: null, legend: null },
    },
  };
}

const limitRow = (px: number, height: number): Row => ({
  ...{ px, py: 0, px2: px, py2: height, stroke: colour('ink'), dash: [4, 3] },
});

/** Words stand outside of their limits, so that those of two that are close do not meet. */
const wordRow = (word: string, at: number): Row => ({
  ...{ word, px: word === 'least' ? at - 3 : at + 3, py: -11, text: [word], fill: colour('soft') },
});

function textOf({ name, values }: UnitSpreadData, { unit, dots, limits }: Shown): ChartText {
  const outside = values.filter(({ isOutside }) => isOutside);
  const bounds = limits.map(({ word, value }) => `${word} ${significant(value, 4)}\u00a0${unit}`);
  const [low, high] = extent(dots.map(({ value }) => value)) ?? [0, 0];
  const range = `${significant(low, 3)} to ${significant(high, 3)}\u00a0${unit}`;
  const kept =
    outside.length === 0
      ? 'all within the limits'
      : `outside the limits: ${listed(outside.map((one) => one.unit))}`;
  return {
    title: `${name}: ${range} over ${counted(values.length, 'unit', 'units')}${limits.length > 0 ? `, ${kept}` : ''}`,
    description: `A dot for each unit along an axis of ${name} in ${unit}. ${bounds.length > 0 ? `Limits stated by the maker: ${bounds.join(', ')}.` : 'No limit is stated.'}`,
  };
}

function tableOf({ name }: UnitSpreadData, { unit, dots }: Shown): ChartTable {
  return {
    columns: [
      { title: 'Unit', numeric: false },
      { title: name, unit, numeric: true },
    ],
    rows: dots.map(({ unit: serial, value }) => [serial, significant(value, 4)]),
  };
}
