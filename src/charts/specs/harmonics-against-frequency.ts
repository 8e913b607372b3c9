import { decadesOverFrequency } from '../distortion.ts';
import { hertz } from '../format.ts';
import { frequencyChannel } from '../frequency.ts';
import { harmonicsOver } from '../harmonic-lines.ts';
import type { ChartResult, ChartSize, HarmonicsAgainstFrequencyData } from '../types.ts';

/** Single harmonics against frequency, in an aspect ratio of IEC 60263. */
export function harmonicsAgainstFrequency(
  data: HarmonicsAgainstFrequencyData,
  size: ChartSize = 'wide',
): ChartResult {
  const abscissa = {
    name: 'frequency',
    unit: 'Hz',
    places: data.frequencyHz,
    print: hertz,
    panel: decadesOverFrequency,
    channel: frequencyChannel,
  };
  return harmonicsOver(abscissa, data, size);
}
