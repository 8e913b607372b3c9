import { logAxis } from './curves.ts';
import { type DistortionLine, percentDomain } from './distortion.ts';
import { type Panel, xChannel } from './layers.ts';
import { logTicks, plainTick } from './ticks.ts';
import type { ChartSize } from './types.ts';

/** The horizontal channel of distortion against output power; the field is `x`, in watts. */
export function powerChannel(panel: Panel) {
  return xChannel('x', panel, {
    ticks: logTicks(panel.x, plainTick),
    title: 'Output power, W',
    print: plainTick,
  });
}

/** A plot of percentages against output power. */
export function percentOverPower(
  lines: readonly Pick<DistortionLine, 'runs'>[],
  width: number,
  size: ChartSize,
): Panel {
  return {
    x: logAxis(lines, width),
    y: { kind: 'log', domain: percentDomain(lines), length: size === 'wide' ? 290 : 240 },
    top: 0,
  };
}
