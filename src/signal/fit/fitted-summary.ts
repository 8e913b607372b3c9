import { quantityText } from '../../quantity/index.ts';
import { type Finding, waveformMessages as messages } from '../messages.ts';
import { isClipped } from '../record/clipping.ts';
import { fundamentalFigures, harmonicFigures, type NoiseFloor } from '../record/harmonic-figures.ts';
import { weightedDistortion } from '../record/perceptual-weighting.ts';
import { fewestLevels, type Levels } from '../record/quantisation.ts';
import type { Steadiness } from '../record/steadiness.ts';
import { thdPlusNoise } from '../record/thd-plus-noise.ts';
import { noDetails } from '../record/waveform-details.ts';
import { squaresOf } from '../statistics/statistics.ts';
import { thdInterval } from '../statistics/thd-interval.ts';
import type { Channel, ChannelSummary, Harmonic, Thd, Withheld } from '../types.ts';
import { type FittedRecord, ordersBelowHalfRate } from './fit-record.ts';

/** What a channel is analysed with, the same for all channels of a record. */
export interface ChannelAnalysis {
  rateHz: number;
  harmonics: number;
  bandHz: [number, number];
  mainsHz: number;
  /** Where the instrument's band ends; null where it is not known. */
  bandwidthHz: number | null;
  /** Cycles of the fundamental found in another channel of the record. */
  expectedCycles: number | null;
}

/** A channel's figures with what must be said of them. */
export interface ChannelResult {
  summary: ChannelSummary;
  findings: Finding[];
}

/** A channel whose fundamental is fitted and steady. */
export interface FittedChannel {
  channel: Channel;
  analysis: ChannelAnalysis;
  fitted: FittedRecord;
  levels: Levels;
  floor: NoiseFloor;
  wander: Steadiness;
  /** What the samples were divided by. */
  scale: number;
  rms: number;
}

/** Wander that is worth a warning: the tenth harmonic then reads half a percent low. */
const wandering = 0.01;

/** All figures of a channel, and what must be said of them. */
export function summariseFitted(parts: FittedChannel): ChannelResult {
  const { channel, analysis, fitted, floor, levels } = parts;
  const harmonics = harmonicFigures(fitted, floor, analysis.rateHz);
  const withNoise = thdPlusNoise(fitted, harmonics, analysis);
  const summary: ChannelSummary = {
    name: channel.name,
    role: channel.role,
    unit: channel.unit,
    dc: fitted.fit.constant,
    rms: parts.rms,
    noiseRms: Math.sqrt(squaresOf(fitted.residual) / fitted.residual.length),
    fundamental: fundamentalFigures(fitted, floor, analysis.rateHz),
    harmonics,
    thd: thdOf(harmonics, floor),
    weightedDistortion: weightedDistortion(harmonics, floor),
    thdPlusNoise: withNoise,
    sinadDb: withNoise !== null && withNoise.ratio > 0 ? -20 * Math.log10(withNoise.ratio) : null,
    clipping: clippingOf(parts),
    levelStep: levels.step,
    ...noDetails,
    withheld: [],
  };
  return {
    summary: { ...summary, withheld: withheldFrom(summary, analysis.bandHz) },
    findings: [...findingsOf(parts, summary), ...bandFindings(summary, analysis.bandHz)],
  };
}

/** Null for a record of so few levels that all of its tops are flat. */
function clippingOf({
  channel: { values },
  levels: { count, step },
  floor: { noise },
  fitted,
}: FittedChannel) {
  return count < fewestLevels ? null : isClipped({ values, step, noise, cycles: fitted.cycles });
}

function thdOf(harmonics: readonly Harmonic[], floor: NoiseFloor): Thd | null {
  const last = harmonics.at(-1);
  if (last === undefined) return null;
  const fundamentalUncertainty = floor.lines[0]?.relative ?? 0;
  const noisy = harmonics.map(({ ratio, order }) => {
    const { relative = 0, sure = 0, freedom = 1 } = floor.lines[order - 1] ?? {};
    return { ratio, uncertainty: relative, sure, freedom };
  });
  return {
    ratio: Math.hypot(...harmonics.map((harmonic) => harmonic.ratio)),
    ...thdInterval({ harmonics: noisy, fundamentalUncertainty, freedom: floor.freedom }),
    reference: 'fundamental',
    orders: [2, last.order],
  };
}

function withheldFrom(summary: ChannelSummary, bandHz: [number, number]): Withheld[] {
  const { thd, thdPlusNoise: withNoise, sinadDb, clipping } = summary;
  const noRatio = withNoise === null ? messages.bandEmpty(bandHz) : messages.nothingBesidesFundamental();
  const absent: [boolean, string[], Finding][] = [
    [thd === null, ['harmonics', 'thd'], messages.noOrders()],
    [withNoise === null, ['thdPlusNoise'], messages.bandEmpty(bandHz)],
    [sinadDb === null, ['sinadDb'], noRatio],
    [clipping === null, ['clipping'], messages.fewLevels(fewestLevels)],
  ];
  return absent
    .filter(([applies]) => applies)
    .flatMap(([, figures, { message }]) => figures.map((figure) => ({ figure, reason: message })));
}

function bandFindings({ thdPlusNoise: withNoise }: ChannelSummary, asked: [number, number]): Finding[] {
  if (withNoise === null) return [messages.bandEmpty(asked)];
  const [low, high] = withNoise.bandHz;
  return low === asked[0] && high === asked[1] ? [] : [messages.bandNarrowed(asked, withNoise.bandHz)];
}

function findingsOf(parts: FittedChannel, { thd, clipping }: ChannelSummary): Finding[] {
  const { analysis, fitted, wander } = parts;
  const possible = ordersBelowHalfRate(fitted.cycles, fitted.residual.length);
  const findings: [boolean, () => Finding][] = [
    [fitted.slowChange, messages.strongerSlowChange],
    [
      Math.max(wander.phase, wander.level) > wandering,
      () => messages.wanderingFundamental(wander.phase, wander.level),
    ],
    [clipping === true, messages.clipping],
    [clipping === null, () => messages.fewLevels(fewestLevels)],
    [thd?.low === 0, () => messages.nothingAboveNoise(thd?.high ?? 0)],
    [isCoarse(parts), () => coarseLevels(parts)],
    [
      thd !== null && possible < analysis.harmonics,
      () => messages.ordersLeftOut(analysis.harmonics, possible),
    ],
    [thd === null, messages.noOrders],
  ];
  return findings.filter(([applies]) => applies).map(([, finding]) => finding());
}

/** True where rounding to levels weighs more in each harmonic than noise does; `relative` holds both. */
function isCoarse({ floor, fitted }: FittedChannel): boolean {
  const rounding = floor.rounding / fitted.amplitude ** 2;
  return floor.lines.every((line) => 2 * rounding > line.relative ** 2);
}

function coarseLevels({ channel, levels, scale, floor, fitted }: FittedChannel): Finding {
  const ratio = Math.sqrt(2 * floor.rounding) / fitted.amplitude;
  return messages.coarseLevels(quantityText((levels.step ?? 0) * scale, channel.unit, 2), ratio);
}
