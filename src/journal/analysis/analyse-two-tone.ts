import type { Capture } from '../../capture/index.ts';
import { type Channel, summariseTwoTone, type TwoToneSummary } from '../../signal/index.ts';

/** What was computed from a two-tone capture. */
export interface TwoToneAnalysed {
  kind: 'two-tone';
  rateHz: number;
  channels: Channel[];
  summary: TwoToneSummary;
}

/** Both tones, their lines and the figures that the tones are made for, in every channel. */
export function analyseTwoTone(
  { columns }: Capture,
  rateHz: number,
  tonesHz: readonly [number, number] | undefined,
): TwoToneAnalysed {
  const channels = columns.map(
    ({ name, role = null, unit, values }): Channel => ({ name, role, unit, values }),
  );
  const summary = summariseTwoTone(channels, rateHz, tonesHz ? { tonesHz } : {});
  return { kind: 'two-tone', rateHz, channels, summary };
}
