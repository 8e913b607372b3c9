import {
  type ExploredChart,
  type ExploredLine,
  type ExploredPanel,
  frequencyAxis,
  powerAxis,
} from '../../charts/explored.ts';
import { colour, harmonicStyle, lineStyle } from '../../charts/theme.ts';
import { isDecibel, runsOf } from '../levels.ts';
import { middle, spectrumStyle } from '../plot.ts';
import type { Curve } from '../types.ts';
import { type View, viewOf } from '../views.ts';

/** Which of a capture's curves a chart draws. */
export interface CurveChoice {
  views: string[];
  channels: string[];
  /** What the levels of the channels are re, where they are not as published. */
  re?: { unit: string; decibels: number[] };
  marks?: { name: string; at: number }[];
}

/** A chart of a page whose curves are published: by its name among those of a page, or by what it draws of a capture. */
export type CurveSource = { file: string } & ({ chart: string } | CurveChoice);

/** The chart that a source names in the content of its file; null where the file does not have it. */
export function exploredIn(content: unknown, source: CurveSource): ExploredChart | null {
  if ('views' in source) return exploredFrom(content as readonly Curve[], source);
  return (content as Readonly<Record<string, ExploredChart>>)[source.chart] ?? null;
}

/** The chart of some of a capture's curves; null where it has none of them. */
export function exploredFrom(curves: readonly Curve[], choice: CurveChoice): ExploredChart | null {
  const view = viewOf(choice.views[0] ?? '');
  const lines = choice.views.flatMap((id) =>
    choice.channels.flatMap((channel, i) => {
      const curve = curves.find((one) => one.view === id && one.channel === channel);
      return curve ? linesOf(reLevel(curve, choice.re?.decibels[i]), i) : [];
    }),
  );
  const unit = choice.re?.unit ?? curves.find((curve) => curve.view === view?.id)?.unit ?? '';
  if (view === null || lines.length === 0) return null;
  return {
    x: view.along === 'power' ? powerAxis : frequencyAxis,
    panels: [panelOf(view, unit, lines)],
    ...(choice.marks ? { marks: choice.marks } : {}),
  };
}

function panelOf(view: View, unit: string, lines: readonly ExploredLine[]): ExploredPanel {
  const floors = lines.filter(({ name }) => name.startsWith(floorName));
  const from = Math.min(...floors.map(({ runs }) => middle(runs.flatMap(({ y }) => y)) - underFloorDb));
  return {
    quantity: orderOf(view.id) === null ? view.quantity : 'Harmonic',
    ...{ unit, kind: isDecibel(unit) ? 'linear' : 'log', lines },
    ...(Number.isFinite(from) ? { from } : {}),
  };
}

const underFloorDb = 10;
const floorName = 'noise floor';

function reLevel({ floor, ...curve }: Curve, decibels = 0): Curve {
  return {
    ...curve,
    y: decibels === 0 ? curve.y : curve.y.map((level) => (level === null ? null : level - decibels)),
    ...(floor ? { floor: floor.map((level) => level - decibels) } : {}),
  };
}

const orderOf = (view: string): number | null => Number(/^harmonic-(\d+)-/.exec(view)?.[1]) || null;

/** A curve as a line, and the noise floor of a spectrum as another. */
function linesOf(curve: Curve, index: number): ExploredLine[] {
  const { x, unit, view, channel, low, high, floor } = curve;
  const runs = (y: number[]) => runsOf({ x, y, unit });
  const order = orderOf(view);
  const style = order === null ? lineStyle(index) : harmonicStyle(order);
  const line = {
    name: order === null ? channel : `H${order}`,
    runs: runsOf(curve),
    style: view === 'spectrum' ? spectrumStyle(style) : style,
    ...(low && high ? { edges: { low: runs(low), high: runs(high) } } : {}),
  };
  return floor ? [line, { name: floorName, runs: runs(floor), style: floorStyle }] : [line];
}

const floorStyle = { stroke: colour('soft'), dash: [4, 2], weight: 1 };
