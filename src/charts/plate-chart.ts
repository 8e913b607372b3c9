import { assemble } from './assemble.ts';
import { curveRows, type DrawnLine } from './curves.ts';
import { type Frame, frameFor } from './frame.ts';
import { gridLabels } from './grid-labels.ts';
import { haloLayer, lineLayer, type Panel, symbolLayer, textLayer, xChannel, yChannel } from './layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from './messages.ts';
import { insideLabels, limitRows, pathRows, plateStyles, pointRows, shownPart } from './plate-diagram.ts';
import { gridText } from './plate-text.ts';
import { extent, type Sorted, sortReadings } from './readings.ts';
import { linearTicks, plainTick, roundStep } from './ticks.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, LoadLineData, PlatePoint } from './types.ts';

type Curve = DrawnLine & { sorted: Sorted; gridV: number };

/** What is said of a plate diagram; `notes` are on what the drawing leaves out. */
export interface PlateWords {
  text(data: LoadLineData, notes: readonly string[]): ChartText;
  table(data: LoadLineData, notes: readonly string[]): ChartTable;
}

/** Draws a plate diagram. Without a curve of two points it is absent. */
export function plateChart(given: LoadLineData, size: ChartSize, words: PlateWords): ChartResult {
  const data = finitePoints(given);
  const curves = data.curves.map(({ gridV, plateV, plateA }): Curve => {
    const milliamperes = Array.from(plateA, (value) => (value === null ? null : value * 1000));
    const sorted = sortReadings(plateV, milliamperes, { x: 'linear', y: 'linear' });
    return { gridV, name: `${gridV}`, sorted, runs: sorted.runs, style: plateStyles.curve };
  });
  const notes = leftOutNotes(curves.map(({ gridV, sorted }) => leftOutOf(gridText(gridV), sorted)));
  const table = words.table(data, notes);
  if (!curves.some(({ runs }) => runs.some(({ x }) => x.length > 1))) {
    return { absent: absentReasons.noCurves(data.device), table };
  }
  const frame = frameFor(size, [gridText(-100)], { rows: 1 });
  const panel = panelOf(data, curves, frame, size);
  return { spec: specOf(data, curves, panel, frame), text: words.text(data, notes), table };
}

/** Points that are not finite have no place on any axis. */
function finitePoints(data: LoadLineData): LoadLineData {
  const { loadLine: line, operatingPoint: rest, swing } = data;
  return {
    ...data,
    loadLine: line?.every(isFinitePoint) ? line : null,
    operatingPoint: rest !== null && isFinitePoint(rest) ? rest : null,
    swing: swing.filter(isFinitePoint),
  };
}

const isFinitePoint = ({ plateV, plateA }: PlatePoint): boolean =>
  Number.isFinite(plateV) && Number.isFinite(plateA);

/** Room for the load line, the swing and the operating point; curves that run on are cut off at the edge. */
function panelOf(data: LoadLineData, curves: readonly Curve[], { width }: Frame, size: ChartSize): Panel {
  const points = [
    ...(data.loadLine ?? []),
    ...data.swing,
    ...(data.operatingPoint ? [data.operatingPoint] : []),
  ];
  const family = curves.flatMap(({ runs }) => runs);
  const axis = (named: number[], all: number[], length: number, rest: number) => {
    const most = Math.max(extent(all)?.[1] ?? 0, 0) || 1;
    const wanted = Math.max(0, ...named.map((value) => value * 1.05), rest * 1.8);
    const high = wanted > 0 ? wanted : most;
    const step = roundStep(high / 8);
    return { kind: 'linear' as const, domain: [0, step * Math.ceil(high / step - 1e-9)] as const, length };
  };
  const rest = data.operatingPoint;
  return {
    x: axis(
      points.map(({ plateV }) => plateV),
      family.flatMap(({ x }) => x),
      width,
      rest?.plateV ?? 0,
    ),
    y: axis(
      points.map(({ plateA }) => plateA * 1000),
      family.flatMap(({ y }) => y),
      size === 'wide' ? 340 : 270,
      (rest?.plateA ?? 0) * 1000,
    ),
    top: 0,
  };
}

function specOf(data: LoadLineData, curves: readonly Curve[], panel: Panel, frame: Frame) {
  const x = xChannel('x', panel, {
    ticks: linearTicks(panel.x, panel.x.length / 70),
    title: 'Plate voltage, V',
    print: plainTick,
  });
  const y = yChannel('y', panel, {
    ...frame,
    ticks: linearTicks(panel.y, panel.y.length / 42),
    title: 'Plate current, mA',
    print: plainTick,
  });
  const grid = gridLabels(curves, panel, gridText);
  const inside = insideLabels(data, panel);
  return assemble(
    frame,
    panel.y.length,
    [
      lineLayer('curve', x, y),
      lineLayer('line', x, y),
      haloLayer('inside', 'left'),
      textLayer('inside', 'left'),
      symbolLayer('point'),
      textLayer('grid-top', 'center'),
      textLayer('grid-side', 'left'),
      textLayer('grid-name', 'right'),
    ],
    {
      curve: curveRows(
        curves.map((curve) => ({ ...curve, runs: curve.runs.map((run) => shownPart(run, panel)) })),
        panel,
        3,
      ),
      line: [
        ...limitRows(data, panel),
        ...pathRows(data.loadLine ?? [], 'load'),
        ...pathRows(data.swing, 'swing'),
      ],
      inside,
      point: pointRows(data, panel),
      'grid-top': grid.top,
      'grid-side': grid.side,
      'grid-name': grid.name,
    },
  );
}
