import { assemble, type Row } from '../assemble.ts';
import { type Axis, along, below } from '../axis.ts';
import { listed } from '../format.ts';
import type { Frame } from '../frame.ts';
import { pixels, strokeLayer } from '../layers.ts';
import { absentReasons } from '../messages.ts';
import { extent } from '../readings.ts';
import { colour } from '../theme.ts';
import type { ChartLayer, ChartResult, ChartTable, SmallTrendData } from '../types.ts';

type Point = SmallTrendData['points'][number];

const frame: Frame = { width: 112, left: 6, right: 6, top: 6, bottom: 6, labelMost: 0, rows: 0 };
const height = 28;

/**
 * A figure over time, small enough for a cell of the table that holds its values: a dot for each value, joined, with its
 * interval as a stroke, on a scale that holds zero. Fewer than two values are no chart.
 */
export function smallTrend({ name, points }: SmallTrendData): ChartResult {
  const table = tableOf(name, points);
  if (points.length < 2) return { absent: absentReasons.fewValues(name), table };
  const x = axisOver(
    points.map(({ time }) => time),
    frame.width,
  );
  const y = axisOver(
    [0, ...points.flatMap(({ value, low = value, high = value }) => [low, value, high])],
    height,
  );
  const spots = points.map((point) => ({ ...point, px: along(x, point.time), py: below(y, point.value) }));
  const joins = spots.slice(1).map((spot, index): Row => {
    const before = spots[index] ?? spot;
    return stroke(before.px, before.py, spot.px, spot.py, colour('soft'));
  });
  const intervals = spots.flatMap(({ px, low, high }) =>
    low === undefined || high === undefined
      ? []
      : [stroke(px, below(y, low), px, below(y, high), colour('ink'))],
  );
  const last = spots.length - 1;
  const spec = assemble(frame, height, [strokeLayer('stroke'), dotLayer], {
    stroke: [...joins, ...intervals],
    dot: spots.map(({ px, py }, index) => ({ px, py, fill: colour(index === last ? 'data1' : 'soft') })),
  });
  const values = listed(points.map(({ label, text }) => `${text} at ${label}`));
  return {
    spec,
    text: {
      title: `${name}: ${values}`,
      description:
        'A dot for each version over its date, with its interval as a stroke, on a scale that holds zero.',
    },
    table,
  };
}

const dotLayer: ChartLayer = {
  data: { name: 'dot' },
  mark: { type: 'point', size: 34, strokeWidth: 0, opacity: 1 },
  encoding: {
    x: pixels('px'),
    y: pixels('py'),
    fill: { field: 'fill', type: 'nominal', scale: null, legend: null },
  },
};

/** Values that are all alike stand in the middle. */
function axisOver(values: readonly number[], length: number): Axis {
  const [low, high] = extent(values) ?? [0, 1];
  const edge = low === high ? Math.abs(low) || 1 : 0;
  return { kind: 'linear', domain: [low - edge, high + edge], length };
}

const stroke = (px: number, py: number, px2: number, py2: number, of: string): Row => ({
  ...{ px, py, px2, py2, stroke: of, dash: [] },
});

const tableOf = (name: string, points: readonly Point[]): ChartTable => ({
  columns: [
    { title: 'Version', numeric: false },
    { title: name, numeric: true },
  ],
  rows: points.map(({ label, text }) => [label, text]),
});
