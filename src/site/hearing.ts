import {
  absentText,
  harmonicProfile,
  type NotHeard,
  type Partial,
  type Profile,
  profileText,
  twoToneProfile,
} from '../hearing/index.ts';
import type { CaptureRecord } from '../journal/types.ts';

/** What a capture page offers to be heard of one channel; without sounds where there is nothing, with the reason. */
export interface HeardChannel {
  name: string;
  sentences: string[];
  sounds: { name: string; partials: string }[];
}

/** The channels of a capture that can be heard: what came out, not what went in; none of captures without tones. */
export function heardChannels({ analysis }: CaptureRecord): HeardChannel[] {
  if (analysis.kind === 'waveform') {
    const names = ['the pure sine', 'the sine with its harmonics'] as const;
    return answers(analysis.summary.channels).map((channel) =>
      heard(channel.name, harmonicProfile(channel), names),
    );
  }
  if (analysis.kind === 'two-tone') {
    const names = ['the two pure tones', 'the tones with what they make together'] as const;
    return answers(analysis.summary.channels).map((channel) =>
      heard(channel.name, twoToneProfile(channel), names),
    );
  }
  return [];
}

function answers<T extends { role: string | null }>(channels: readonly T[]): T[] {
  const others = channels.filter(({ role }) => role !== 'stimulus');
  return others.length > 0 ? others : [...channels];
}

function heard(
  name: string,
  profile: Profile | NotHeard,
  [pure, distorted]: readonly [string, string],
): HeardChannel {
  if ('absent' in profile)
    return { name, sentences: [`Of ${name} ${absentText[profile.absent]}`], sounds: [] };
  return {
    name,
    sentences: profileText(profile),
    sounds: [
      { name: pure, partials: written(profile.pure) },
      { name: distorted, partials: written(profile.distorted) },
    ],
  };
}

/** Partials as the page hands them to the player. */
const written = (partials: readonly Partial[]): string =>
  JSON.stringify(
    partials.map(({ frequencyHz, amplitude, phase }) =>
      [frequencyHz, amplitude, phase].map((value) => Number(value.toPrecision(7))),
    ),
  );
