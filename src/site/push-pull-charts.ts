import { combinedLoadLine, currentsOverCycle } from '../charts/index.ts';
import type { PushPullDiagram, PushPullSheet } from '../load/index.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** Combined curves with the path along the load line, and the currents of both sides over a cycle. */
export function pushPullCharts(
  { device, atLoad, output }: PushPullSheet,
  diagram: PushPullDiagram | null,
): { name: string; chart: SizedChart }[] {
  if (!diagram || !atLoad) return [];
  const { loadOhm, cutOffShare } = atLoad;
  const line = sized(
    combinedLoadLine,
    { device, loadOhm, ...diagram },
    `Both sides of ${device} by the model, ${output ? 'in the middle of the band' : 'on an ideal transformer'}, at full drive.`,
  );
  const currents = sized(
    currentsOverCycle,
    { ...diagram.cycle, cutOffShare },
    'A side counts as cut off below a hundredth of its crest.',
  );
  return [
    { name: 'line', chart: line },
    { name: 'currents', chart: currents },
  ];
}
