import { fixed, hertz, percent, significant, withPrefix } from './format.ts';
import { extent } from './readings.ts';
import { noted } from './table.ts';
import type { ChartTable, ChartText, LoadLineData, LoadPlace, PlatePoint } from './types.ts';

/** A grid voltage as text. */
export const gridText = (gridV: number): string => `${fixed(gridV, 2)}\u00a0V`;

/** Says of a path that is no line where it is worst, and why: the load there. */
export function loopTitle({ frequencyHz, thdRatio, loadOhm, phaseDeg }: LoadPlace): string {
  const load = `${withPrefix(loadOhm, 'Ω', 3)} at ${fixed(phaseDeg, 0)}°`;
  return `At ${hertz(frequencyHz)}, where distortion is largest (${percent(thdRatio)}), the load is ${load}`;
}

/** Title and description of a plate diagram. */
export function plateText(data: LoadLineData, notes: readonly string[]): ChartText {
  const { device, operatingPoint, loadOhm, swing, dissipationLimitW, curves } = data;
  const grids = extent(curves.map(({ gridV }) => gridV));
  const family =
    grids === null ? '' : ` for grid voltages from ${gridText(grids[0])} to ${gridText(grids[1])}`;
  const load = loadOhm === null ? [] : [`The load line is that of ${withPrefix(loadOhm, 'Ω', 3)}.`];
  const rest = operatingPoint === null ? [] : [`At rest the grid is at ${gridText(operatingPoint.gridV)}.`];
  return {
    title: [restTitle(data), ...swingText(swing)].join('; '),
    description: [
      `Plate current of ${device} against plate voltage${family}.`,
      ...load,
      ...rest,
      ...limitText(dissipationLimitW),
      ...notes,
    ].join(' '),
  };
}

function restTitle({ device, operatingPoint, dissipationLimitW }: LoadLineData): string {
  if (operatingPoint === null) return `Plate characteristics of ${device}`;
  const { plateV, plateA } = operatingPoint;
  const rest = `${device} at rest: ${withPrefix(plateV, 'V', 3)}, ${withPrefix(plateA, 'A', 3)}`;
  const heat = withPrefix(plateV * plateA, 'W', 3);
  if (dissipationLimitW === null) return `${rest}, ${heat} in the plate`;
  return `${rest}, ${heat} of a plate limit of ${withPrefix(dissipationLimitW, 'W', 3)}`;
}

function swingText(swing: readonly PlatePoint[]): string[] {
  const range = extent(swing.map(({ plateV }) => plateV));
  return range === null ? [] : [`full swing from ${wholeVolts(range[0])} to ${wholeVolts(range[1])}`];
}

const wholeVolts = (value: number): string => `${fixed(value, 0)}\u00a0V`;

function limitText(limit: number | null): string[] {
  return limit === null ? [] : [`A dashed curve marks ${withPrefix(limit, 'W', 3)} of plate dissipation.`];
}

/** The points of a plate diagram as a table. */
export function plateTable(data: LoadLineData, notes: readonly string[]): ChartTable {
  const point = (name: string, { plateV, plateA }: PlatePoint) => [
    name,
    significant(plateV, 4),
    significant(plateA * 1000, 4),
    significant(plateV * plateA, 3),
  ];
  const { operatingPoint, loadLine: line, swing } = data;
  const ends = swing.toSorted((a, b) => a.plateV - b.plateV);
  const [lowest, highest] = [ends[0], ends.at(-1)];
  return {
    columns: [
      { title: 'Point', numeric: false },
      { title: 'Plate voltage', unit: 'V', numeric: true },
      { title: 'Plate current', unit: 'mA', numeric: true },
      { title: 'Dissipation', unit: 'W', numeric: true },
    ],
    rows: [
      ...(operatingPoint === null ? [] : [point('Operating point', operatingPoint)]),
      ...(lowest === undefined || highest === undefined
        ? []
        : [point('Swing, lowest voltage', lowest), point('Swing, highest voltage', highest)]),
      ...(line ?? []).map((end, i) => point(`Load line, point ${i + 1}`, end)),
    ],
    ...noted(notes),
  };
}
