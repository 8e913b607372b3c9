import type { BandNoise, NoiseLevel } from '../noise/band-noise.ts';
import type { Hum } from '../noise/hum.ts';
import type { SignalToNoise } from '../noise/signal-to-noise.ts';
import type { HarmonicSum } from './even-odd.ts';
import type { OutputPower } from './output-power.ts';

/** Further figures of a channel; null where the data do not support one. */
export interface ChannelDetails {
  /** Largest distance from the direct part over the rms about it. */
  crestFactor: number | null;
  evenHarmonics: HarmonicSum | null;
  oddHarmonics: HarmonicSum | null;
  hum: Hum | null;
  /** Without hum and without harmonics. */
  bandNoise: BandNoise | null;
  /** Into the load that the capture declares. */
  outputPower: OutputPower | null;
  signalToNoise: SignalToNoise | null;
}

/** What a channel has before anything of it is known. */
export const noDetails: ChannelDetails = {
  crestFactor: null,
  evenHarmonics: null,
  oddHarmonics: null,
  hum: null,
  bandNoise: null,
  outputPower: null,
  signalToNoise: null,
};

/** Details of samples that had been divided by `scale`, in the channel's own unit. */
export function rescaledDetails(
  { hum, bandNoise }: Pick<ChannelDetails, 'hum' | 'bandNoise'>,
  scale: number,
): Pick<ChannelDetails, 'hum' | 'bandNoise'> {
  return { hum: hum && rescaledHum(hum, scale), bandNoise: bandNoise && rescaledNoise(bandNoise, scale) };
}

function rescaledHum(hum: Hum, scale: number): Hum {
  const times = (value: number | null) => (value === null ? null : value * scale);
  return {
    ...hum,
    ...rescaledLevel(hum, scale),
    lines: hum.lines.map((line) => ({
      ...line,
      rms: times(line.rms),
      low: times(line.low),
      high: times(line.high),
    })),
  };
}

function rescaledNoise(noise: BandNoise, scale: number): BandNoise {
  return {
    ...noise,
    unweighted: rescaledLevel(noise.unweighted, scale),
    aWeighted: rescaledLevel(noise.aWeighted, scale),
    itu468: rescaledLevel(noise.itu468, scale),
  };
}

const rescaledLevel = ({ rms, low, high }: NoiseLevel, scale: number): NoiseLevel => ({
  rms: rms * scale,
  low: low * scale,
  high: high * scale,
});
