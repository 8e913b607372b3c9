import { intermodulationSpectrum, waveformExcerpt } from '../charts/index.ts';
import type { Analysis, ChartKind } from '../journal/index.ts';
import { amplitudeSpectrum, type CombinationLine } from '../signal/index.ts';
import type { ChartedCapture } from './charted-capture.ts';
import { type SizedChart, sized } from './sized-chart.ts';
import { windowText } from './window-words.ts';

type TwoTone = Extract<Analysis, { kind: 'two-tone' }>;

/** A chart of a two-tone capture: an excerpt, or else the spectrum of one channel. */
export function twoToneChart(
  capture: ChartedCapture,
  analysis: TwoTone,
  kind: ChartKind,
  channel: string | null,
): SizedChart | null {
  return kind === 'excerpt' ? excerpt(capture, analysis) : spectrum(capture, analysis, channel);
}

/** Some periods of the slowest movement: that of the lower tone, or of the beat between both. */
function excerpt({ data }: ChartedCapture, { channels, rateHz, summary }: TwoTone): SizedChart {
  const tones = summary.channels.find((channel) => channel.tones)?.tones ?? null;
  const [lower, upper] = [tones?.lower.frequencyHz ?? 0, tones?.upper.frequencyHz ?? 0];
  const fundamentalHz = tones && Math.min(lower, upper - lower);
  const chart = { rateHz, fundamentalHz, channels, source: data.title };
  return sized(waveformExcerpt, chart, `${data.title}: an excerpt of the waveform.`);
}

/** High orders that are not told from noise would only crowd the drawing. */
const isTelling = ({ order, detected }: CombinationLine) => order <= 3 || detected;

/** The channel asked for, else the response, else the last. */
function spectrum(
  { data }: ChartedCapture,
  { channels, rateHz, summary }: TwoTone,
  wanted: string | null,
): SizedChart | null {
  const name = wanted ?? (channels.find(({ role }) => role === 'response') ?? channels.at(-1))?.name;
  const channel = channels.find((candidate) => candidate.name === name);
  const figures = summary.channels.find((candidate) => candidate.name === name);
  if (!channel || !figures) return null;
  const { tones, pattern, products, harmonics } = figures;
  const options = tones ? { tonesHz: [tones.lower.frequencyHz, tones.upper.frequencyHz] as const } : {};
  const drawn = amplitudeSpectrum(channel, rateHz, options);
  const { frequencyHz, rms, floorRms } = drawn;
  const chart = {
    ...{ channel: channel.name, role: channel.role, frequencyHz, rms, floorRms, tones, pattern },
    lines: [...products, ...harmonics].filter(isTelling).toSorted((a, b) => a.order - b.order),
    source: data.title,
  };
  const caption = `${data.title}: spectrum of ${channel.name} with its intermodulation lines, ${windowText(drawn)}`;
  return sized(intermodulationSpectrum, chart, caption);
}
