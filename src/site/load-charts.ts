import { loadLine, powerAgainstLoad } from '../charts/index.ts';
import type { PlateDiagram, PushPullSheet, StageDiagram, StageSheet, TubeStageSheet } from '../load/index.ts';
import { followerCharts } from './follower-charts.ts';
import { pushPullCharts } from './push-pull-charts.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** The charts of a stage, each with a name of its own on the page. */
export function stageCharts(
  stage: StageSheet,
  diagram: StageDiagram | null,
): { name: string; chart: SizedChart }[] {
  switch (stage.topology) {
    case 'single-ended':
    case 'resistance-coupled':
      return tubeCharts(stage, diagram && 'curves' in diagram ? diagram : null);
    case 'push-pull':
      return [
        ...pushPullCharts(stage, diagram && 'combined' in diagram ? diagram : null),
        ...(stage.sweep.length > 1 ? [{ name: 'sweep', chart: powerAgainstLoadChart(stage) }] : []),
      ];
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return [];
    case 'follower':
    case 'follower-pair':
      return followerCharts(stage);
  }
}

function tubeCharts(
  stage: TubeStageSheet,
  diagram: PlateDiagram | null,
): { name: string; chart: SizedChart }[] {
  const swept = stage.sweep.length > 1 && stage.topology === 'single-ended';
  return [
    ...(diagram ? [{ name: 'line', chart: loadLineChart(stage, diagram) }] : []),
    ...(swept ? [{ name: 'sweep', chart: powerAgainstLoadChart(stage) }] : []),
  ];
}

/** Plate characteristics with the load line and the swing of a stage. */
function loadLineChart(stage: TubeStageSheet, diagram: PlateDiagram): SizedChart {
  const { operatingPoint, limits, atLoad } = stage;
  const [first, last] = diagram.line ?? [];
  const dissipation = limits.find(({ name }) => name === 'plate dissipation');
  const data = {
    device: stage.device,
    curves: diagram.curves.map(({ gridV, points }) => ({
      gridV,
      plateV: points.map(({ plateV }) => plateV),
      plateA: points.map(({ plateA }) => plateA),
    })),
    loadLine: first && last ? ([first, last] as const) : null,
    loadOhm: atLoad?.loadOhm ?? null,
    operatingPoint: operatingPoint && { ...diagram.rest, gridV: operatingPoint.gridV },
    swing: diagram.swing ?? [],
    dissipationLimitW: dissipation?.limit ?? null,
  };
  return sized(
    loadLine,
    data,
    `Plate characteristics of the ${stage.device} ${sourceOf(stage)}, with the load line.`,
  );
}

const sourceOf = (stage: TubeStageSheet | PushPullSheet) =>
  'curvesFrom' in stage && stage.curvesFrom !== null ? 'as traced' : 'by its model';

/** Power and distortion of a stage over a range of loads. */
function powerAgainstLoadChart(stage: TubeStageSheet | PushPullSheet): SizedChart {
  const { sweep, atLoad, candidates, device } = stage;
  const column = (key: 'loadOhm' | 'powerW' | 'secondRatio' | 'thirdRatio' | 'thdRatio') =>
    sweep.map((row) => row[key]);
  const data = {
    loadOhm: column('loadOhm'),
    powerW: column('powerW'),
    secondRatio: column('secondRatio'),
    thirdRatio: column('thirdRatio'),
    thdRatio: column('thdRatio'),
    chosenOhm: atLoad?.loadOhm ?? null,
    candidates: together(candidates),
  };
  return sized(
    powerAgainstLoad,
    data,
    `The ${device} at full drive over a range of loads, ${sourceOf(stage)}.`,
  );
}

/** Candidates by load; rules that give the same load share one label. */
function together(candidates: TubeStageSheet['candidates']): { label: string; loadOhm: number }[] {
  const labels = new Map<number, string[]>();
  for (const { short, loadOhm } of candidates) {
    if (loadOhm !== null) labels.set(loadOhm, [...(labels.get(loadOhm) ?? []), short]);
  }
  return [...labels].map(([loadOhm, shorts]) => ({ label: shorts.join(', '), loadOhm }));
}
