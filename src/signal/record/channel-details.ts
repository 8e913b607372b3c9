import type { FittedRecord } from '../fit/fit-record.ts';
import type { ChannelAnalysis, ChannelResult } from '../fit/fitted-summary.ts';
import { remainderOf } from '../fit/remainder.ts';
import { detailMessages, type Finding, waveformMessages } from '../messages.ts';
import { bandNoise } from '../noise/band-noise.ts';
import { measureHum } from '../noise/hum.ts';
import type { Channel, ChannelSummary, Withheld } from '../types.ts';
import { crestFactor } from './crest-factor.ts';
import { harmonicSum } from './even-odd.ts';
import { withFolding } from './folding.ts';
import type { NoiseFloor } from './harmonic-figures.ts';
import { conditionFindings } from './record-conditions.ts';
import type { ChannelDetails } from './waveform-details.ts';

/** Figures with the reasons for those that are missing. */
interface Details {
  figures: Partial<ChannelDetails>;
  missing: [figure: keyof ChannelDetails, finding: Finding | null][];
}

/** A channel whose fundamental is fitted: scaled samples, fit and noise. */
export interface FittedParts {
  channel: Channel;
  analysis: ChannelAnalysis;
  fitted: FittedRecord;
  floor: NoiseFloor;
  /** What the samples were divided by. */
  scale: number;
}

/** Adds the further figures of a fitted channel to its summary. */
export function withDetails(result: ChannelResult, parts: FittedParts): ChannelResult {
  const { channel, analysis, fitted, floor } = parts;
  const sums = harmonicSums(result.summary, floor);
  const noise = noiseDetails(channel.values, fitted, analysis);
  const crest = crestDetails(channel.values, fitted.fit.constant);
  const complete = [sums, noise, crest].reduce(joined, result.summary);
  const folded = withFolding(complete, fitted, analysis);
  return {
    summary: folded.summary,
    findings: [
      ...result.findings,
      ...folded.findings,
      ...conditionFindings(parts),
      ...atMains(complete, fitted, analysis),
    ],
  };
}

/** Adds what a channel without a fundamental still has: its crest and, where it is noise, its hum and its noise. */
export function withNoiseDetails(
  result: ChannelResult,
  values: Float64Array,
  analysis: ChannelAnalysis,
): ChannelResult {
  const { dc } = result.summary;
  const crest = joined(result.summary, crestDetails(values, dc ?? 0));
  const summary =
    dc === null || result.summary.noiseRms === null || crest.crestFactor === null
      ? crest
      : joined(crest, noiseDetails(values, null, analysis));
  return { ...result, summary };
}

function joined(summary: ChannelSummary, { figures, missing }: Details): ChannelSummary {
  const names = missing.map(([figure]) => `${figure}`);
  const kept = summary.withheld.filter(({ figure }) => !names.includes(figure));
  const added = missing
    .filter(([figure]) => figures[figure] === null)
    .map(([figure, finding]): Withheld => ({ figure, reason: finding?.message ?? '' }));
  return { ...summary, ...figures, withheld: [...kept, ...added] };
}

function harmonicSums({ harmonics }: ChannelSummary, floor: NoiseFloor): Details {
  return {
    figures: {
      evenHarmonics: harmonicSum(harmonics, 'even', floor),
      oddHarmonics: harmonicSum(harmonics, 'odd', floor),
    },
    missing: [
      ['evenHarmonics', detailMessages.noOrdersOf('even')],
      ['oddHarmonics', detailMessages.noOrdersOf('odd')],
    ],
  };
}

function crestDetails(values: Float64Array, constant: number): Details {
  return {
    figures: { crestFactor: crestFactor(values, constant) },
    missing: [['crestFactor', detailMessages.noVariation()]],
  };
}

function noiseDetails(
  values: Float64Array,
  fitted: FittedRecord | null,
  { rateHz, bandHz, mainsHz }: ChannelAnalysis,
): Details {
  const { hum, remainder, finding } = measureHum(remainderOf(values, fitted), { rateHz, mainsHz });
  return {
    figures: { hum, bandNoise: bandNoise(remainder, { rateHz, bandHz }) },
    missing: [
      ['hum', finding],
      ['bandNoise', waveformMessages.bandEmpty(bandHz)],
    ],
  };
}

/** A fundamental on a multiple of the mains frequency. */
function atMains(
  { hum }: ChannelSummary,
  { cycles, residual }: FittedRecord,
  { rateHz }: ChannelAnalysis,
): Finding[] {
  const line = hum?.lines.find(({ harmonic }) => harmonic === 1);
  return line ? [detailMessages.fundamentalAtMains(line.multiple, (cycles * rateHz) / residual.length)] : [];
}
