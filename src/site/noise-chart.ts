import { noiseDensityChart } from '../charts/index.ts';
import type { Analysis } from '../journal/index.ts';
import { type Channel, type ChannelSummary, noiseDensity } from '../signal/index.ts';
import type { ChartedCapture } from './charted-capture.ts';
import { type SizedChart, sized } from './sized-chart.ts';

type Waveform = Extract<Analysis, { kind: 'waveform' }>;

/** The channel asked for with its figures, or the first response. */
export function chosenChannel(
  { channels, summary }: Waveform,
  wanted: string | null,
): { channel: Channel; figures: ChannelSummary } | null {
  const name = wanted ?? (channels.find(({ role }) => role === 'response') ?? channels.at(-1))?.name;
  const channel = channels.find((candidate) => candidate.name === name);
  const figures = summary.channels.find((candidate) => candidate.name === name);
  return channel && figures ? { channel, figures } : null;
}

/** Noise density of a channel; null for a record too short to average. */
export function noiseChart(
  { data: { title } }: ChartedCapture,
  analysis: Waveform,
  wanted: string | null,
): SizedChart | null {
  const chosen = chosenChannel(analysis, wanted);
  const { rateHz, summary } = analysis;
  const density = chosen && noiseDensity(chosen.channel, rateHz, { harmonics: summary.settings.harmonics });
  if (!chosen || !density) return null;
  const { name, role, unit } = chosen.channel;
  const { window, segment, overlap, averages } = density;
  const hum = chosen.figures.hum?.lines.filter(({ detected }) => detected) ?? [];
  return sized(
    noiseDensityChart,
    {
      ...{ channel: name, role, unit, source: title },
      ...{ frequencyHz: density.frequencyHz, density: density.density },
      hum: hum.map(({ frequencyHz }) => frequencyHz),
    },
    `${title}: noise density of ${name}, ${averages} segments of ${segment} samples averaged, ${window} window, ${100 * overlap} % overlap.`,
  );
}
