import { decimate } from '../charts/decimate.ts';
import type { Analysis } from '../journal/index.ts';
import type { Curve } from '../overlay/index.ts';
import { type AmplitudeSpectrum, amplitudeSpectrum, type Channel } from '../signal/index.ts';
import { keptDigits } from './rounded.ts';

type Sampled = Extract<Analysis, { kind: 'waveform' | 'two-tone' }>;

const columnsPerDecade = 250;
const reach = 100;
const decimals = 100;

/**
 * Spectra of the channels in decibels re one unit, from a hundredth to a hundred times the carrier, thinned to the
 * highest and the lowest line in each of 250 columns per decade, so that every peak is kept at its frequency.
 */
export function spectrumCurves(analysis: Sampled): Curve[] {
  return analysis.channels.flatMap((channel) => {
    const { spectrum, carrier } = spectrumOf(analysis, channel);
    return spectrum.frequencyHz.length > 0 && carrier ? [curveOf(channel, spectrum, carrier)] : [];
  });
}

interface Line {
  frequencyHz: number;
  rms: number;
}

function spectrumOf(
  analysis: Sampled,
  channel: Channel,
): { spectrum: AmplitudeSpectrum; carrier: Line | null } {
  if (analysis.kind === 'waveform') {
    const { channels, settings } = analysis.summary;
    const { harmonics } = settings;
    const spectrum = amplitudeSpectrum(channel, analysis.rateHz, { harmonics });
    return { spectrum, carrier: channels.find(({ name }) => name === channel.name)?.fundamental ?? null };
  }
  const tones = analysis.summary.channels.find(({ name }) => name === channel.name)?.tones ?? null;
  const tonesHz = tones && ([tones.lower.frequencyHz, tones.upper.frequencyHz] as const);
  const spectrum = amplitudeSpectrum(channel, analysis.rateHz, tonesHz ? { tonesHz } : {});
  return { spectrum, carrier: tones?.upper ?? null };
}

function curveOf({ name, unit }: Channel, spectrum: AmplitudeSpectrum, carrier: Line): Curve {
  const kept = keptLines(spectrum, carrier);
  const decibels = (values: Float64Array) => kept.map((line) => level(values[line] ?? 0));
  return {
    ...{ view: 'spectrum', channel: name, unit: unit === 'V' ? 'dBV' : `dB re 1 ${unit}` },
    x: keptDigits(kept.map((line) => spectrum.frequencyHz[line] ?? 0)),
    y: decibels(spectrum.rms).map((value) => (Number.isFinite(value) ? value : null)),
    ...(spectrum.floorRms.every((value) => value > 0) ? { floor: decibels(spectrum.floorRms) } : {}),
    carrier: level(carrier.rms),
  };
}

const level = (rms: number): number => Math.round(20 * Math.log10(rms) * decimals) / decimals;

function keptLines({ frequencyHz, rms }: AmplitudeSpectrum, carrier: Line): number[] {
  const lines = [...frequencyHz.keys()].filter((line) => {
    const at = frequencyHz[line] ?? 0;
    return at >= carrier.frequencyHz / reach && at <= carrier.frequencyHz * reach;
  });
  const column = (i: number) => Math.floor(columnsPerDecade * Math.log10(frequencyHz[lines[i] ?? 0] ?? 1));
  const levels = lines.map((line) => rms[line] ?? 0);
  return decimate(levels, column).flatMap((i) => lines[i] ?? []);
}
