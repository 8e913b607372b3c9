import { type Finding, detailMessages as messages } from './messages.ts';
import { signalToNoise } from './noise/signal-to-noise.ts';
import { outputPower } from './record/output-power.ts';
import type { ChannelSummary, WaveformOptions, Withheld } from './types.ts';

/** Adds what needs a load or a rating to the channels' figures, and the reasons where it is missing. */
export function referenced(channels: readonly ChannelSummary[], options: WaveformOptions): ChannelSummary[] {
  return channels.map((channel) => withReferences(channel, options, isOutput(channel, channels)));
}

/** A response is an output; so is a channel alone that is not called a stimulus. */
function isOutput({ role }: ChannelSummary, { length }: readonly ChannelSummary[]): boolean {
  return role === 'response' || (role === null && length === 1);
}

function withReferences(
  channel: ChannelSummary,
  { loadOhm, rated }: WaveformOptions,
  output: boolean,
): ChannelSummary {
  const power = output && loadOhm !== undefined && loadOhm > 0 ? outputPower(channel, loadOhm) : null;
  const ratio = signalToNoise(channel, output ? (rated ?? null) : null);
  const withheld: Withheld[] = [
    ...(power ? [] : [{ figure: 'outputPower', reason: powerReason(channel, loadOhm, output).message }]),
    ...(ratio ? [] : [{ figure: 'signalToNoise', reason: noiseReason(channel) }]),
  ];
  return {
    ...channel,
    outputPower: power,
    signalToNoise: ratio,
    withheld: [...channel.withheld, ...withheld],
  };
}

function powerReason({ unit }: ChannelSummary, loadOhm: number | undefined, output: boolean): Finding {
  if (loadOhm === undefined || !(loadOhm > 0)) return messages.noLoad();
  if (!output) return messages.notAnOutput();
  return messages.noPowerUnit(unit);
}

/** Without noise the reason is that of the noise. */
function noiseReason({ bandNoise, withheld }: ChannelSummary): string {
  const noise = withheld.find(({ figure }) => figure === 'bandNoise');
  return bandNoise === null && noise ? noise.reason : messages.noNoiseReference().message;
}
