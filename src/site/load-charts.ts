import { loadLine, powerAgainstLoad } from '../charts/index.ts';
import type { PlateDiagram, StageSheet } from '../load/index.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** The charts of a stage, each with a name of its own on the page. */
export function stageCharts(
  stage: StageSheet,
  diagram: PlateDiagram | null,
): { name: string; chart: SizedChart }[] {
  const swept = stage.sweep.length > 1 && stage.topology === 'single-ended';
  return [
    ...(diagram ? [{ name: 'line', chart: loadLineChart(stage, diagram) }] : []),
    ...(swept ? [{ name: 'sweep', chart: powerAgainstLoadChart(stage) }] : []),
  ];
}

/** Plate characteristics with the load line and the swing of a stage. */
function loadLineChart(stage: StageSheet, diagram: PlateDiagram): SizedChart {
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
    `Plate characteristics of the ${stage.device} by its model, with the load line.`,
  );
}

/** Power and distortion of a stage over a range of loads. */
function powerAgainstLoadChart({ sweep, atLoad, candidates, device }: StageSheet): SizedChart {
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
  return sized(powerAgainstLoad, data, `The ${device} at full drive over a range of loads, by its model.`);
}

/** Candidates by load; rules that give the same load share one label. */
function together(candidates: StageSheet['candidates']): { label: string; loadOhm: number }[] {
  const labels = new Map<number, string[]>();
  for (const { short, loadOhm } of candidates) {
    if (loadOhm !== null) labels.set(loadOhm, [...(labels.get(loadOhm) ?? []), short]);
  }
  return [...labels].map(([loadOhm, shorts]) => ({ label: shorts.join(', '), loadOhm }));
}
