import { assemble } from './assemble.ts';
import { curveRows, type DrawnLine, endLabels } from './curves.ts';
import type { Frame } from './frame.ts';
import { lineLayer, type Panel, strokeLayer, textLayer, xChannel, yChannel } from './layers.ts';
import { linearTicks, plainTick } from './ticks.ts';
import type { ChartSpec } from './types.ts';

/** Lines in one panel with linear axes, some of them with their names at their right ends. */
export function linePanelSpec(
  lines: readonly DrawnLine[],
  panel: Panel,
  frame: Frame,
  { named, x, y }: { named: readonly DrawnLine[]; x: string; y: string },
): ChartSpec {
  const across = xChannel('x', panel, {
    ticks: linearTicks(panel.x, panel.x.length / 70),
    title: x,
    print: plainTick,
  });
  const up = yChannel('y', panel, {
    ...frame,
    ticks: linearTicks(panel.y, panel.y.length / 42),
    title: y,
    print: plainTick,
  });
  const { labels, leads } = endLabels(named, panel, frame);
  return assemble(
    frame,
    panel.y.length,
    [lineLayer('line', across, up), strokeLayer('lead'), textLayer('label', 'left')],
    { line: curveRows(lines, panel), lead: leads, label: labels },
  );
}
