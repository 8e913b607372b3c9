import type { DrawnLine } from '../curves.ts';
import { canBeDrawn } from '../distortion.ts';
import { fixed, hertz, significant, withPrefix } from '../format.ts';
import { frameFor } from '../frame.ts';
import type { Panel } from '../layers.ts';
import { linePanelSpec } from '../line-panel.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { plateStyles } from '../plate-diagram.ts';
import { loopTitle } from '../plate-text.ts';
import { extent, type Sorted, sortReadings } from '../readings.ts';
import { colour, type LineStyle } from '../theme.ts';
import { roundDomain } from '../ticks.ts';
import type {
  ChartResult,
  ChartSize,
  ChartTable,
  ChartText,
  CombinedLoadLineData,
  PlatePoint,
  Readings,
} from '../types.ts';

type Line = DrawnLine & { sorted: Sorted };

const faint: LineStyle = { stroke: colour('soft'), dash: [2, 2.5], weight: 1 };

/**
 * The combined current of both sides of a pair in milliamperes against the plate voltage of the first: one curve
 * for each swing of the grids, each side alone at no swing, and the path along the load line. Without a curve of
 * two points it is absent.
 */
export function combinedLoadLine(given: CombinedLoadLineData, size: ChartSize = 'wide'): ChartResult {
  const data = { ...given, path: given.path.filter(isFinitePoint) };
  const curves = data.combined.map(({ inputV, plateV, plateA }) =>
    lineOf(swingText(inputV), plateV, plateA, plateStyles.curve),
  );
  const sides = data.sides.map(({ plateV, plateA }, i) =>
    lineOf(`side ${i + 1} alone`, plateV, plateA, faint),
  );
  const notes = leftOutNotes([...curves, ...sides].map(({ name, sorted }) => leftOutOf(name, sorted)));
  const table = tableOf(data);
  if (!canBeDrawn(curves) || !(data.restV > 0 && data.restV < Number.POSITIVE_INFINITY))
    return { absent: absentReasons.noCurves(data.device), table };
  const path = lineOf(
    'path',
    data.path.map(({ plateV }) => plateV),
    data.path.map(({ plateA }) => plateA),
    plateStyles.swing,
  );
  const frame = frameFor(
    size,
    curves.map(({ name }) => name),
  );
  const panel = panelOf(data, frame.width, size);
  const spec = linePanelSpec([...sides, ...curves, path], panel, frame, {
    named: curves,
    x: 'Plate voltage of the first side, V',
    y: 'First side less second, mA',
  });
  return { spec, text: textOf(data, notes), table };
}

function lineOf(name: string, plateV: Readings, plateA: Readings, style: LineStyle): Line {
  const milliamperes = Array.from(plateA, (value) => (value === null ? null : 1000 * value));
  const sorted = sortReadings(plateV, milliamperes, { x: 'linear', y: 'linear' });
  return { name, sorted, runs: sorted.runs, style };
}

const isFinitePoint = ({ plateV, plateA }: PlatePoint): boolean =>
  Number.isFinite(plateV) && Number.isFinite(plateA);

const swingText = (inputV: number): string => `${inputV > 0 ? '+' : ''}${fixed(inputV, 1)}\u00a0V`;

/** Room for the path; curves that run on are cut off at the edge. */
function panelOf({ path, restV }: CombinedLoadLineData, width: number, size: ChartSize): Panel {
  const most = Math.max(...path.map(({ plateA }) => Math.abs(plateA) * 1000), 1e-3);
  const [low, high] = roundDomain(-1.25 * most, 1.25 * most, 8);
  return {
    x: { kind: 'linear', domain: [0, 2 * restV], length: width },
    y: { kind: 'linear', domain: [low, high], length: size === 'wide' ? 340 : 270 },
    top: 0,
  };
}

function textOf(
  { device, loadOhm, path, combined, at }: CombinedLoadLineData,
  notes: readonly string[],
): ChartText {
  const range = extent(path.map(({ plateV }) => plateV));
  const swing =
    range === null
      ? ''
      : `: each plate swings from ${fixed(range[0], 0)}\u00a0V to ${fixed(range[1], 0)}\u00a0V`;
  const grids = extent(combined.map(({ inputV }) => inputV));
  const family =
    grids === null
      ? ''
      : ` for swings of the first grid from ${swingText(grids[0])} to ${swingText(grids[1])}`;
  return {
    title: at
      ? `${loopTitle(at)} from plate to plate${swing}`
      : `Two sides of ${device} against each other into ${withPrefix(loadOhm, 'Ω', 3)} from plate to plate${swing}`,
    description: [
      `Current of the first side less that of the second against the plate voltage of the first${family}.`,
      at
        ? `The thick line is the path of a cycle at ${hertz(at.frequencyHz)}.`
        : `The thick line is the path of a cycle; its slope is that of ${withPrefix(loadOhm / 4, 'Ω', 3)}, a quarter of the load.`,
      'Dotted, each side alone without a swing; the second is turned over.',
      ...notes,
    ].join(' '),
  };
}

function tableOf({ path, source }: CombinedLoadLineData): ChartTable {
  const ends = path.toSorted((a, b) => a.plateV - b.plateV);
  const row = (name: string, point: { plateV: number; plateA: number } | undefined) =>
    point ? [[name, significant(point.plateV, 4), significant(1000 * point.plateA, 4)]] : [];
  return {
    columns: [
      { title: 'Point', numeric: false },
      { title: 'Plate voltage of the first side', unit: 'V', numeric: true },
      { title: 'Combined current', unit: 'mA', numeric: true },
    ],
    rows: [...row('Path, lowest voltage', ends[0]), ...row('Path, highest voltage', ends.at(-1))],
    ...(source === undefined ? {} : { note: source }),
  };
}
