import { type Panel, xChannel } from './layers.ts';
import { logTicks, prefixedTick, type Ticks } from './ticks.ts';

/** Rules and numbers of a horizontal axis in hertz. */
export const frequencyTicks = ({ x }: Panel): Ticks => logTicks(x, prefixedTick);

/** The horizontal channel of level or distortion against frequency; the field is `x`, in hertz. */
export function frequencyChannel(panel: Panel) {
  return xChannel('x', panel, { ticks: frequencyTicks(panel), title: 'Frequency, Hz', print: prefixedTick });
}
