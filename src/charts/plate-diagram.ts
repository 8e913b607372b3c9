import type { Row } from './assemble.ts';
import { along, below } from './axis.ts';
import { withPrefix } from './format.ts';
import type { Panel } from './layers.ts';
import type { Run } from './readings.ts';
import { colour, type LineStyle } from './theme.ts';
import type { LoadLineData, PlatePoint } from './types.ts';

/** How the lines of a plate diagram are drawn. */
export const plateStyles = {
  curve: { stroke: colour('soft'), dash: [], weight: 1 },
  load: { stroke: colour('data1'), dash: [], weight: 1.4 },
  swing: { stroke: colour('data1'), dash: [], weight: 3.2 },
  limit: { stroke: colour('data4'), dash: [6, 3], weight: 1.4 },
} satisfies Record<string, LineStyle>;

const limitPoints = 60;

/** A run from where it leaves the base line to the first reading outside of the plot. */
export function shownPart({ x, y }: Run, panel: Panel): Run {
  const lifted = Math.max(0, y.findIndex((value) => along(panel.y, value) > 0.3) - 1);
  const outside = x.findIndex(
    (value, i) => i > lifted && (value > panel.x.domain[1] || (y[i] ?? 0) > panel.y.domain[1]),
  );
  const end = outside < 0 ? x.length : outside + 1;
  return { x: x.slice(lifted, end), y: y.slice(lifted, end) };
}

/** Rows of the load line or of the swing along it. */
export function pathRows(points: readonly PlatePoint[], kind: 'load' | 'swing'): Row[] {
  const { stroke, dash, weight } = plateStyles[kind];
  return points.map(({ plateV, plateA }, at) => ({
    x: plateV,
    y: plateA * 1000,
    at,
    run: kind,
    stroke,
    dash,
    weight,
  }));
}

/** The hyperbola of constant dissipation inside the plot, points evenly spread over the logarithm of the voltage. */
export function limitRows({ dissipationLimitW }: LoadLineData, { x, y }: Panel): Row[] {
  if (dissipationLimitW === null || !(dissipationLimitW > 0)) return [];
  const [from, to] = [(dissipationLimitW * 1000) / y.domain[1], x.domain[1]];
  if (from >= to) return [];
  const { stroke, dash, weight } = plateStyles.limit;
  return Array.from({ length: limitPoints + 1 }, (_, at) => {
    const plateV = from * (to / from) ** (at / limitPoints);
    return { x: plateV, y: (dissipationLimitW * 1000) / plateV, at, run: 'limit', stroke, dash, weight };
  });
}

/** The operating point as a symbol. */
export function pointRows({ operatingPoint }: LoadLineData, { x, y }: Panel): Row[] {
  if (operatingPoint === null) return [];
  const { plateV, plateA } = operatingPoint;
  return [
    {
      px: along(x, plateV),
      py: below(y, plateA * 1000),
      shape: 'circle',
      fill: colour('ink'),
      stroke: colour('paper'),
    },
  ];
}

/** Names of the operating point, the load line and the limit, beside what they name. */
export function insideLabels(
  { operatingPoint, loadLine: line, loadOhm, dissipationLimitW }: LoadLineData,
  panel: Panel,
): Row[] {
  const { x, y } = panel;
  const rows: Row[] = [];
  const add = (plateV: number, plateA: number, text: string, fill: string) =>
    rows.push({ px: along(x, plateV) + 9, py: below(y, plateA * 1000) - 9, text: [text], fill });
  if (operatingPoint !== null) {
    const { plateV, plateA } = operatingPoint;
    add(plateV, plateA, `${withPrefix(plateV, 'V', 3)}, ${withPrefix(plateA, 'A', 3)}`, colour('ink'));
  }
  if (line !== null && loadOhm !== null) {
    const [high, low] = line;
    add(
      low.plateV + 0.22 * (high.plateV - low.plateV),
      low.plateA + 0.22 * (high.plateA - low.plateA),
      withPrefix(loadOhm, 'Ω', 3),
      plateStyles.load.stroke,
    );
  }
  if (dissipationLimitW !== null) {
    const plateA = 0.93 * (y.domain[1] / 1000);
    add(dissipationLimitW / plateA, plateA, withPrefix(dissipationLimitW, 'W', 3), plateStyles.limit.stroke);
  }
  return rows.filter(({ px, py }) => Number(px) < x.length - 30 && Number(py) > 0);
}
