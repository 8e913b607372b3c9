import { type Axis, drawable } from './axis.ts';
import { extent } from './readings.ts';
import type { IntermodulationSpectrumData } from './types.ts';

type Tones = NonNullable<IntermodulationSpectrumData['tones']>;

/** Sidebands on either side of the upper tone that a view of modulation has room for. */
const sidebands = 5.5;

/**
 * The stretch of frequency that shows what two tones make: the surroundings of the upper tone where a far lower one
 * modulates it, everything from zero to beyond two close tones, and a logarithmic axis over all lines otherwise.
 */
export function intermodulationView(
  { tones, pattern, lines, frequencyHz }: IntermodulationSpectrumData & { tones: Tones },
  length: number,
): Axis {
  const known = Array.from(frequencyHz).filter((hz) => drawable('linear', hz));
  const end = extent(known)?.[1] ?? tones.upper.frequencyHz;
  const [lower, upper] = [tones.lower.frequencyHz, tones.upper.frequencyHz];
  if (pattern === 'modulation') {
    const domain = [upper - sidebands * lower, Math.min(end, upper + sidebands * lower)] as const;
    return { kind: 'linear', domain, length };
  }
  if (pattern === 'difference-frequency') {
    return { kind: 'linear', domain: [0, Math.min(end, upper + 4.5 * (upper - lower))], length };
  }
  const places = [lower, upper, ...lines.map((line) => line.frequencyHz)].filter((hz) => drawable('log', hz));
  return {
    kind: 'log',
    domain: [Math.min(...places) / 1.5, Math.min(end, Math.max(...places) * 1.2)],
    length,
  };
}
