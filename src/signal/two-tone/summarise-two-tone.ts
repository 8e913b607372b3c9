import { searchWindow } from '../fit/locate-fundamental.ts';
import { falseAlarmPerRecord } from '../record/harmonic-figures.ts';
import type { Channel } from '../types.ts';
import { highestOrder } from './combinations.ts';
import { summariseTwoToneChannel } from './two-tone-channel.ts';
import type { TwoToneOptions, TwoToneSummary } from './two-tone-types.ts';

/**
 * Intermodulation of a record of two tones: for each channel both tones, the lines at their combinations up to the
 * fifth order with uncertainty and detection, and the figures that the tones are made for. Both frequencies and all
 * lines are fitted jointly by least squares. Nothing throws: a figure that the samples do not support is null,
 * `withheld` says why, and a warning says it again.
 *
 * @param channels samples in SI units, all at `rateHz`
 * @param rateHz samples per second
 */
export function summariseTwoTone(
  channels: readonly Channel[],
  rateHz: number,
  { tonesHz }: TwoToneOptions = {},
): TwoToneSummary {
  const declared = tonesHz ? ([Math.min(...tonesHz), Math.max(...tonesHz)] as const) : null;
  const results = channels.map((channel) => summariseTwoToneChannel(channel, { rateHz, tonesHz: declared }));
  return {
    channels: results.map(({ summary }) => summary),
    warnings: results.flatMap(({ summary, findings }) =>
      findings.map((finding) => ({ ...finding, channel: summary.name })),
    ),
    settings: {
      highestOrder,
      tonesHz: declared,
      searchWindow: searchWindow.name,
      falseAlarmPerRecord,
      intervalCoverage: 0.95,
    },
  };
}
