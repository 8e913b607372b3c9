import type { Readings, WaveformExcerptData } from './types.ts';

const mostSamples = 2000;

/** A part of a record: where it begins, the times of its samples from there, and the samples themselves. */
interface Excerpt {
  startS: number;
  seconds: number[];
  channels: (WaveformExcerptData['channels'][number] & { values: (number | null)[] })[];
}

/**
 * Cuts a few cycles out of a record. They begin where the stimulus, or else the first channel, first rises
 * through its mean, when the record is long enough for that.
 */
export function excerptOf({ rateHz, fundamentalHz, cycles = 3, channels }: WaveformExcerptData): Excerpt {
  const length = Math.max(0, ...channels.map(({ values }) => values.length));
  const wanted = fundamentalHz === null ? mostSamples : Math.ceil((cycles * rateHz) / fundamentalHz) + 1;
  const count = Math.max(0, Math.min(wanted, length)) || 0;
  const leader = channels.find(({ role }) => role === 'stimulus') ?? channels[0];
  const start = leader === undefined ? 0 : firstRise(leader.values, length - count);
  return {
    startS: rateHz > 0 ? start / rateHz : 0,
    seconds: rateHz > 0 ? Array.from({ length: count }, (_, i) => i / rateHz) : [],
    channels: channels.map((channel) => ({
      ...channel,
      values: Array.from({ length: count }, (_, i) => channel.values[start + i] ?? null),
    })),
  };
}

/** The first sample up to `latest` that rises through the mean; 0 when there is none. */
function firstRise(values: Readings, latest: number): number {
  const present = Array.from(values).filter((value) => value !== null);
  const mean = present.reduce((sum, value) => sum + value, 0) / present.length;
  for (let i = 1; i <= latest; i++) {
    if ((values[i - 1] ?? mean) < mean && (values[i] ?? mean) >= mean) return i;
  }
  return 0;
}
