import type { Row } from './assemble.ts';
import { curveRows, type DrawnLine, loneRows } from './curves.ts';
import { percentChannel, percentNumbers, printPercent, sortRatios } from './distortion.ts';
import { type ExploredAxis, type ExploredChart, justLine } from './explored.ts';
import { fixed } from './format.ts';
import { type Frame, fitted, frameFor } from './frame.ts';
import { lineLayer, loneLayer, type Panel, panelRules, type xChannel, yChannel } from './layers.ts';
import { leftOutNotes, leftOutOf } from './messages.ts';
import { type Sorted, sortReadings } from './readings.ts';
import { harmonicStyle, lineStyle } from './theme.ts';
import { linearTicks, plainTick, type Ticks } from './ticks.ts';
import type { ChartLayer, ChartSize, ChartSpec, Readings } from './types.ts';

type Line = DrawnLine & { sorted: Sorted };

/** Output power of a stage with its harmonics and total distortion; watts and plain ratios. */
export interface PowerAndDistortion {
  powerW: Readings;
  secondRatio: Readings;
  thirdRatio: Readings;
  thdRatio: Readings;
}

/** The lines of power and distortion, and what the drawing leaves out of them. */
export interface PowerLines {
  power: Line;
  distortion: Line[];
  notes: string[];
}

/** Output power above and distortion below, on one logarithmic axis. */
export interface PowerPanels {
  power: Panel;
  distortion: Panel;
}

/** Room between the two panels, for the title of the lower axis. */
export const panelGap = 44;

/** Name of the line of total distortion. */
export const total = 'THD';

/** Sorts the readings into lines over their places. */
export function powerLines(
  places: Readings,
  { powerW, secondRatio, thirdRatio, thdRatio }: PowerAndDistortion,
): PowerLines {
  const watts = sortReadings(places, powerW, { x: 'log', y: 'linear' });
  const ratios = (name: string, ratio: Readings, style: Line['style']): Line => {
    const sorted = sortRatios(places, ratio);
    return { name, sorted, runs: sorted.runs, style };
  };
  const power = {
    name: 'Output power',
    sorted: watts,
    runs: watts.runs,
    style: { ...lineStyle(4), weight: 1.8 },
  };
  const distortion = [
    ratios('H3', thirdRatio, harmonicStyle(3)),
    ratios('H2', secondRatio, harmonicStyle(2)),
    ratios(total, thdRatio, lineStyle(4)),
  ];
  const notes = leftOutNotes([power, ...distortion].map(({ name, sorted }) => leftOutOf(name, sorted)));
  return { power, distortion, notes };
}

/** Lays the panels out in a frame with room for the names at the lines' ends and for the numbers of the lower axis. */
export function fittedPower(
  { distortion }: PowerLines,
  size: ChartSize,
  layOut: (width: number) => PowerPanels,
): { frame: Frame; plot: PowerPanels } {
  return fitted(
    frameFor(
      size,
      distortion.map(({ name }) => name),
    ),
    ({ width }) => layOut(width),
    (plot) => percentNumbers(plot.distortion),
  );
}

/** The lines in their panels, and the rows of a grid behind them; both layers take one horizontal channel. */
export function powerLayers(
  { power, distortion }: PowerLines,
  panels: PowerPanels,
  { frame, ticks, across }: { frame: Frame; ticks: Ticks; across: ReturnType<typeof xChannel> },
): { layers: ChartLayer[]; datasets: Record<string, Row[]> } {
  const watts = yChannel('y', panels.power, {
    ...frame,
    ticks: linearTicks(panels.power.y, panels.power.y.length / 36),
    title: 'Output power, W',
    print: plainTick,
  });
  const ratio = percentChannel('y', panels.distortion, { ...frame, rows: 0 }, { title: 'Distortion, %' });
  return {
    layers: [
      { layer: [lineLayer('power', across, watts), loneLayer('power-lone', across, watts)] },
      { layer: [lineLayer('distortion', across, ratio), loneLayer('distortion-lone', across, ratio)] },
    ],
    datasets: {
      grid: panelRules(ticks, [panels.power, panels.distortion]),
      power: curveRows([power], panels.power),
      'power-lone': loneRows([power]),
      distortion: curveRows(distortion, panels.distortion),
      'distortion-lone': loneRows(distortion),
    },
  };
}

/** The same lines for a reader who explores them. */
export const exploredPower = (
  x: ExploredAxis,
  { power, distortion }: PowerLines,
): { explored: ExploredChart } => ({
  explored: {
    x,
    panels: [
      { quantity: 'Output power', unit: 'W', kind: 'linear', lines: [justLine(power)] },
      { quantity: 'Distortion', unit: '%', kind: 'log', lines: distortion.map(justLine) },
    ],
  },
});

/** The spec with two vertical axes. */
export const withTwoAxes = (spec: ChartSpec): ChartSpec => ({
  ...spec,
  resolve: { scale: { y: 'independent' } },
});

/** Columns of power and distortion for the table of a chart. */
export function powerColumns({ powerW, secondRatio, thirdRatio, thdRatio }: PowerAndDistortion) {
  const ratio = (title: string, values: Readings) => ({ title, unit: '%', values, print: printPercent });
  return [
    { title: 'Output power', unit: 'W', values: powerW, print: (value: number) => fixed(value, 2) },
    ratio('Second harmonic', secondRatio),
    ratio('Third harmonic', thirdRatio),
    ratio('THD', thdRatio),
  ];
}
