import { withPrefix } from '../format.ts';
import { harmonicsOver } from '../harmonic-lines.ts';
import { percentOverPower, powerChannel } from '../power.ts';
import type { ChartResult, ChartSize, HarmonicsAgainstPowerData } from '../types.ts';

/** Single harmonics against output power. */
export function harmonicsAgainstPower(
  data: HarmonicsAgainstPowerData,
  size: ChartSize = 'wide',
): ChartResult {
  const abscissa = {
    name: 'output power',
    unit: 'W',
    places: data.powerW,
    print: (watts: number) => withPrefix(watts, 'W'),
    panel: percentOverPower,
    channel: powerChannel,
  };
  return harmonicsOver(abscissa, data, size);
}
