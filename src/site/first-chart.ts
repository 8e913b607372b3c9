import type { AbsentChart, Chart, DrawnChart } from '../charts/index.ts';
import { type ChartKind, chartKindsOf } from '../journal/analysis/chart-kinds.ts';
import type { CaptureRecord, Comparison, Log, Page, Prose, Version } from '../journal/types.ts';
import { comparisonCharts } from './comparison-charts.ts';
import { stageCharts } from './load-charts.ts';
import { chartAtHand } from './shown-chart.ts';

/** A chart that may be drawn already. */
export type FirstChart = Chart | DrawnChart;

/** The first chart that a log shows: the one its prose places first, else that of its first capture. */
export function firstChartOfLog({ captures, prose }: Log): FirstChart | null {
  const remaining = captures.map((capture) => ({ capture, kind: null, channel: null }));
  const byName = (name: string) => captures.find((capture) => capture.name === name);
  return firstOf([...placedIn(prose, byName), ...remaining], chartsOf);
}

/** The first chart that a page of the maker's own places, naming the capture by its id. */
export function firstChartOfPage({ prose }: Page, captures: readonly CaptureRecord[]): FirstChart | null {
  const byId = (id: string) => captures.find((capture) => capture.id === id);
  return firstOf(placedIn(prose, byId), chartsOf);
}

interface Placed {
  capture: CaptureRecord;
  kind: string | null;
  channel: string | null;
}

const placedIn = (prose: Prose, named: (name: string) => CaptureRecord | undefined): Placed[] =>
  prose.mentions.flatMap(({ name, capture: of, kind, channel }) => {
    const capture = named(of);
    return name === 'chart' && capture ? [{ capture, kind, channel }] : [];
  });

const chartsOf = ({ capture, kind, channel }: Placed) => [chartOf(capture, kind, channel)];

/** The most telling chart of a capture. */
export function firstChartOfCapture(capture: CaptureRecord): FirstChart | null {
  return firstOf(chartKindsOf(capture), (kind) => [chartOf(capture, kind, null)]);
}

/** The first chart of a version's load sheet. */
export function firstChartOfVersion({ sheet, diagrams }: Version): FirstChart | null {
  const stages = sheet?.stages.map((stage, index) => ({ stage, diagram: diagrams[index] ?? null })) ?? [];
  return firstOf(stages, ({ stage, diagram }) =>
    stageCharts(stage, diagram).map(({ chart }) => chart.narrow),
  );
}

/** The first curve that a comparison draws. */
export function firstChartOfComparison({ compared }: Comparison): FirstChart | null {
  return firstOf(compared.pairs, (pair) => comparisonCharts(pair).map(({ narrow }) => narrow));
}

function chartOf(capture: CaptureRecord, kind: string | null, channel: string | null) {
  const kinds = chartKindsOf(capture);
  const chosen: ChartKind | undefined = kinds.find((candidate) => candidate === kind) ?? kinds[0];
  return chosen === undefined ? null : (chartAtHand({ capture, kind: chosen, channel })?.narrow ?? null);
}

/** The first drawing among what each thing gives; later things are not looked at once there is one. */
export function firstOf<Thing>(
  things: readonly Thing[],
  charts: (thing: Thing) => readonly (FirstChart | AbsentChart | null)[],
): FirstChart | null {
  for (const thing of things) {
    for (const chart of charts(thing)) if (chart && !('absent' in chart)) return chart;
  }
  return null;
}
