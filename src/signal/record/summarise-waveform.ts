import type { ChannelAnalysis, ChannelResult } from '../fit/fitted-summary.ts';
import { searchWindow } from '../fit/locate-fundamental.ts';
import { type Finding, waveformMessages as messages } from '../messages.ts';
import { referenced } from '../references.ts';
import type { Channel, ChannelSummary, SignalWarning, WaveformOptions, WaveformSummary } from '../types.ts';
import { summariseChannel } from './channel-summary.ts';
import { falseAlarmPerRecord } from './harmonic-figures.ts';
import { transfersOf } from './transfers.ts';

const defaultOrders = 10;
const mostOrders = 100;
const defaultBandHz: [number, number] = [20, 20_000];
const defaultMainsHz = 50;

/**
 * The distortion summary of a sampled waveform: for each channel its constant, level, fundamental, harmonics, THD,
 * THD+N, SINAD and noise, each with what limits it.
 *
 * The fundamental is the strongest line. It is found in a windowed spectrum, fitted as a sine (IEEE Std 1057, four
 * parameters, from memory) and then together with its harmonics at exact multiples by least squares; the samples need
 * not hold a whole number of cycles nor number a power of two. What is left over gives the noise near each line, and
 * from it every uncertainty. Nothing throws: a figure that the samples do not support is null, `withheld` says why,
 * and a warning says it again.
 *
 * @param channels samples in SI units, all at `rateHz`
 * @param rateHz samples per second
 */
export function summariseWaveform(
  channels: readonly Channel[],
  rateHz: number,
  options: WaveformOptions = {},
): WaveformSummary {
  const asked = options.harmonics ?? defaultOrders;
  const harmonics = usableOrders(asked);
  const { bandHz, findings } = bandOf(options);
  const mainsHz = positive(options.mainsHz) ?? defaultMainsHz;
  const analysis: Omit<ChannelAnalysis, 'expectedCycles'> = {
    ...{ rateHz, harmonics, bandHz, mainsHz },
    bandwidthHz: positive(options.bandwidthHz),
  };
  const results: ChannelResult[] = [];
  for (const channel of channels) {
    const expectedCycles = cyclesIn(results, channel, rateHz);
    results.push(summariseChannel(channel, { ...analysis, expectedCycles }));
  }
  const warnings = results.flatMap(({ summary, findings }) => findings.map(ofChannel(summary.name)));
  const summaries = referenced(
    results.map((result) => result.summary),
    options,
  );
  const record = { rows: channels[0]?.values.length ?? 0, rateHz };
  const { transfers, findings: ofPairs } = transfersOf(summaries, record);
  return {
    channels: summaries,
    transfers,
    warnings: [
      ...(harmonics === asked ? [] : [ofChannel(null)(messages.ordersUnusable(asked, harmonics))]),
      ...findings.map(ofChannel(null)),
      ...warnings,
      ...stimulusWarnings(summaries),
      ...ofPairs.map(ofChannel(null)),
    ],
    settings: {
      harmonics,
      bandHz,
      mainsHz,
      searchWindow: searchWindow.name,
      falseAlarmPerRecord,
      intervalCoverage: 0.95,
    },
  };
}

/** Cycles that the fundamental found last would have in a channel; null where none was found yet. */
function cyclesIn(results: readonly ChannelResult[], { values }: Channel, rateHz: number): number | null {
  const found = results.findLast(({ summary }) => summary.fundamental !== null)?.summary.fundamental;
  return found ? (found.frequencyHz * values.length) / rateHz : null;
}

const ofChannel =
  (channel: string | null) =>
  (finding: Finding): SignalWarning => ({ ...finding, channel });

function usableOrders(asked: number): number {
  if (!Number.isFinite(asked)) return defaultOrders;
  return Math.min(mostOrders, Math.max(2, Math.floor(asked)));
}

/** A number above zero; null for none and for any other. */
const positive = (value: number | undefined) =>
  value !== undefined && value > 0 && Number.isFinite(value) ? value : null;

/** A band whose edges are no numbers gives way to the usual one. */
function bandOf({ bandHz = defaultBandHz }: WaveformOptions): {
  bandHz: [number, number];
  findings: Finding[];
} {
  if (bandHz.every(Number.isFinite)) return { bandHz, findings: [] };
  return { bandHz: defaultBandHz, findings: [messages.bandUnusable(defaultBandHz)] };
}

/** A stimulus whose own distortion is certain, and a tenth of a response's or more, is part of that response's. */
function stimulusWarnings(channels: readonly ChannelSummary[]): SignalWarning[] {
  const stimuli = channels.filter((channel) => channel.role === 'stimulus');
  const responses = channels.filter((channel) => channel.role === 'response');
  return stimuli.flatMap((stimulus) =>
    responses
      .filter(
        (response) => (stimulus.thd?.low ?? 0) > 0.1 * (response.thd?.ratio ?? Number.POSITIVE_INFINITY),
      )
      .map((response) =>
        ofChannel(stimulus.name)(messages.distortedStimulus(stimulus.thd?.ratio ?? 0, response.name)),
      ),
  );
}
