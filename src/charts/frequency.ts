import { type Panel, xChannel } from './layers.ts';
import { logTicks, prefixedTick } from './ticks.ts';

/** The horizontal channel of level or distortion against frequency; the field is `x`, in hertz. */
export function frequencyChannel(panel: Panel) {
  const ticks = logTicks(panel.x, prefixedTick);
  return xChannel('x', panel, { ticks, title: 'Frequency, Hz', print: prefixedTick });
}
