import { type LoadLineData, loadLine, powerAgainstLoad } from '../charts/index.ts';
import type {
  PlateDiagram,
  PushPullDiagram,
  PushPullSheet,
  StageDiagram,
  StageSheet,
  TubeStageSheet,
} from '../load/index.ts';
import { followerCharts } from './follower-charts.ts';
import { pushPullCharts } from './push-pull-charts.ts';
import { pairPath, realLoadCharts, tubePath } from './real-load-charts.ts';
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
      return pairCharts(stage, diagram && 'combined' in diagram ? diagram : null);
    case 'cathode-follower':
    case 'split-load':
    case 'long-tailed':
      return [];
    case 'follower':
    case 'follower-pair':
      return followerCharts(stage);
  }
}

function pairCharts(
  stage: PushPullSheet,
  diagram: PushPullDiagram | null,
): { name: string; chart: SizedChart }[] {
  const { device, atLoad, output, sweep } = stage;
  const path = diagram && atLoad && pairPath({ device, loadOhm: atLoad.loadOhm, ...diagram });
  return [
    ...pushPullCharts(stage, diagram),
    ...(sweep.length > 1 ? [{ name: 'sweep', chart: powerAgainstLoadChart(stage) }] : []),
    ...(output ? realLoadCharts(output, path) : []),
  ];
}

function tubeCharts(
  stage: TubeStageSheet,
  diagram: PlateDiagram | null,
): { name: string; chart: SizedChart }[] {
  const swept = stage.sweep.length > 1 && stage.topology === 'single-ended';
  return [
    ...(diagram ? [{ name: 'line', chart: loadLineChart(stage, diagram) }] : []),
    ...(swept ? [{ name: 'sweep', chart: powerAgainstLoadChart(stage) }] : []),
    ...(stage.output ? realLoadCharts(stage.output, diagram && tubePath(plateData(stage, diagram))) : []),
  ];
}

/** Plate characteristics with the load line and the swing of a stage. */
function loadLineChart(stage: TubeStageSheet, diagram: PlateDiagram): SizedChart {
  return sized(
    loadLine,
    { ...plateData(stage, diagram), swing: diagram.swing ?? [] },
    `Plate characteristics of the ${stage.device} ${sourceOf(stage)}, with the load line.`,
  );
}

/** Curves, load line and operating point of a stage, without a swing. */
function plateData(
  { device, operatingPoint, limits, atLoad }: TubeStageSheet,
  diagram: PlateDiagram,
): Omit<LoadLineData, 'swing'> {
  const [first, last] = diagram.line ?? [];
  const dissipation = limits.find(({ name }) => name === 'plate dissipation');
  return {
    device,
    curves: diagram.curves.map(({ gridV, points }) => ({
      gridV,
      plateV: points.map(({ plateV }) => plateV),
      plateA: points.map(({ plateA }) => plateA),
    })),
    loadLine: first && last ? ([first, last] as const) : null,
    loadOhm: atLoad?.loadOhm ?? null,
    operatingPoint: operatingPoint && { ...diagram.rest, gridV: operatingPoint.gridV },
    dissipationLimitW: dissipation?.limit ?? null,
  };
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
    candidates: candidates.flatMap(({ short, loadOhm }) =>
      loadOhm === null ? [] : [{ label: short, loadOhm }],
    ),
  };
  return sized(
    powerAgainstLoad,
    data,
    `The ${device} at full drive over a range of loads, ${sourceOf(stage)}.`,
  );
}
