import type { ExploredChart, ExploredLine } from '../charts/explored.ts';
import { type ChartKind, chartKindsOf } from '../journal/analysis/chart-kinds.ts';
import type { CaptureRecord, Comparison, Journal, Version } from '../journal/types.ts';
import type { CurveSource } from '../overlay/explored/index.ts';
import { fileAddress } from './address.ts';
import { captureChart } from './capture-charts.ts';
import { comparisonCharts } from './comparison-charts.ts';
import { capturedCurves } from './explored-captures.ts';
import { stageCharts } from './load-charts.ts';
import { predictedMeasured } from './predicted.ts';
import { predictedChart } from './predicted-chart.ts';
import { keptDigits } from './rounded.ts';
import type { SizedChart } from './sized-chart.ts';

/** Curves of a page’s charts that are not published for overlays, by the names that the charts have there. */
export interface ExploredPage {
  /** Path of the page. */
  page: string;
  charts: Record<string, ExploredChart>;
}

/** Names of the charts that are explored, on their page. */
export const chartNames = {
  stage: (stage: string, name: string): string => `${stage}-${name}`,
  predicted: (index: number): string => `predicted-${index}`,
  compared: (pair: number, index: number): string => `c${pair}-${index}`,
};

/** Where a reader who explores a chart of a page finds its curves; null for a chart without any over an axis. */
export const curvesOnPage = (page: string, name: string, { wide }: SizedChart): CurveSource | null =>
  'explored' in wide ? { file: fileAddress(`${page}/curves.json`), chart: name } : null;

/** Where a reader who explores a chart of a capture finds its curves: among those for overlays, or beside its page. */
export function curvesOfCapture(
  capture: CaptureRecord,
  kind: ChartKind,
  channel: string | null,
): CurveSource | null {
  const published = capturedCurves(capture, kind, channel);
  if (published || channel !== null) return published;
  const [own] = ownCharts(capture, [kind]);
  return own ? curvesOnPage(capture.id, ...own) : null;
}

/** Every page of versions, comparisons and captures that has such charts. */
export const exploredPages = ({ versions, comparisons, logs }: Journal): ExploredPage[] =>
  [
    ...logs.flatMap(({ captures }) =>
      captures.map((capture) => pageOf(capture.id, ownCharts(capture, notOverlaid))),
    ),
    ...versions.map((version) => pageOf(version.id, versionCharts(version, logs))),
    ...comparisons.map((comparison) => pageOf(comparison.id, comparedCharts(comparison))),
  ].filter(({ charts }) => Object.keys(charts).length > 0);

type Named = [name: string, chart: SizedChart];

/** Levels that cannot be laid over others: held while distortion was swept, or changed by a loudspeaker. */
const notOverlaid: readonly ChartKind[] = ['response', 'loudspeaker-response'];

/** Charts of some kinds whose curves are published beside the page alone. */
function ownCharts(capture: CaptureRecord, kinds: readonly ChartKind[]): Named[] {
  return chartKindsOf(capture)
    .filter((kind) => kinds.includes(kind) && notOverlaid.includes(kind))
    .filter((kind) => capturedCurves(capture, kind, null) === null)
    .flatMap((kind): Named[] => {
      const chart = captureChart(capture, kind, null);
      return chart ? [[kind, chart]] : [];
    });
}

function versionCharts(version: Version, logs: Journal['logs']): Named[] {
  const { sheet, diagrams } = version;
  const stages = (sheet?.stages ?? []).flatMap((stage, i) =>
    stageCharts(stage, diagrams[i] ?? null).map(
      ({ name, chart }): Named => [chartNames.stage(stage.id, name), chart],
    ),
  );
  return [...stages, ...predictedCharts(version, logs)];
}

function predictedCharts(version: Version, logs: Journal['logs']): Named[] {
  const found = predictedMeasured(version, logs);
  const stage = found && 'of' in found ? found.of.stage : null;
  if (!found || !('of' in found) || !stage) return [];
  return found.sweeps.flatMap((capture, i): Named[] => {
    const chart = predictedChart(stage, capture);
    return chart ? [[chartNames.predicted(i), chart]] : [];
  });
}

const comparedCharts = ({ compared }: Comparison): Named[] =>
  compared.pairs.flatMap((pair, i) =>
    comparisonCharts(pair).map((chart, j): Named => [chartNames.compared(i, j), chart]),
  );

function pageOf(page: string, named: readonly Named[]): ExploredPage {
  const charts = named.flatMap(([name, { wide }]) =>
    'explored' in wide && wide.explored ? [[name, published(wide.explored)] as const] : [],
  );
  return { page, charts: Object.fromEntries(charts) };
}

/** The same chart with as many digits as are published of curves. */
const published = ({ panels, ...chart }: ExploredChart): ExploredChart => ({
  ...chart,
  panels: panels.map((panel) => ({ ...panel, lines: panel.lines.map(publishedLine) })),
});

function publishedLine({ runs, edges, ...line }: ExploredLine): ExploredLine {
  const rounded = (all: ExploredLine['runs']) =>
    all.map(({ x, y }) => ({ x: keptDigits(x), y: keptDigits(y) }));
  return {
    ...{ ...line, runs: rounded(runs) },
    ...(edges ? { edges: { low: rounded(edges.low), high: rounded(edges.high) } } : {}),
  };
}
