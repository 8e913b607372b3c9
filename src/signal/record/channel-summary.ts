import { fitRecord } from '../fit/fit-record.ts';
import { type ChannelAnalysis, type ChannelResult, summariseFitted } from '../fit/fitted-summary.ts';
import { firstNotFinite, scaled } from '../fit/scaled.ts';
import { type Finding, waveformMessages as messages } from '../messages.ts';
import { isConstant, squaresOf, sumOf } from '../statistics/statistics.ts';
import type { Channel, ChannelSummary } from '../types.ts';
import { withDetails, withNoiseDetails } from './channel-details.ts';
import { noiseFloor, phaseOf } from './harmonic-figures.ts';
import { levelsOf } from './quantisation.ts';
import { steadiness } from './steadiness.ts';
import { noDetails, rescaledDetails } from './waveform-details.ts';

/** Fewest samples that leave the fit of a sine enough to be judged by. */
const fewestSamples = 16;
/** Wander of the fundamental, re its amplitude, beyond which it is no steady sine: a tenth of its power. */
const unsteady = Math.sqrt(0.1);

/** The figures of one channel. */
export function summariseChannel(channel: Channel, analysis: ChannelAnalysis): ChannelResult {
  const fault = faultOf(channel.values, analysis.rateHz);
  if (fault !== null) return withoutFigures(channel, fault);
  const { values, scale } = scaled(channel.values);
  const { summary, findings } = summariseScaled({ ...channel, values }, analysis, scale);
  return { summary: rescaled(summary, scale), findings };
}

/** What keeps a record from being analysed at all. */
export function faultOf(values: Float64Array, rateHz: number): Finding | null {
  if (!(rateHz > 0 && Number.isFinite(rateHz))) return messages.rateUnusable();
  if (values.length < fewestSamples) return messages.recordTooShort(values.length, fewestSamples);
  const broken = firstNotFinite(values);
  return broken === -1 ? null : messages.sampleNotFinite(broken + 1);
}

/** The summary in the channel's own unit. */
function rescaled(summary: ChannelSummary, scale: number): ChannelSummary {
  const times = (value: number | null) => (value === null ? null : value * scale);
  const { fundamental } = summary;
  return {
    ...summary,
    dc: times(summary.dc),
    rms: times(summary.rms),
    noiseRms: times(summary.noiseRms),
    levelStep: times(summary.levelStep),
    ...rescaledDetails(summary, scale),
    fundamental: fundamental && {
      ...fundamental,
      rms: fundamental.rms * scale,
      rmsUncertainty: fundamental.rmsUncertainty * scale,
    },
  };
}

function summariseScaled(channel: Channel, analysis: ChannelAnalysis, scale: number): ChannelResult {
  const { values } = channel;
  const moments = momentsOf(values);
  const without = (finding: Finding, noiseRms: number | null) =>
    withNoiseDetails(withoutFundamental(channel, moments, finding, noiseRms), values, analysis);
  if (moments.ac === 0) return without(messages.constantRecord(), 0);
  const { fitted, finding } = fitRecord(values, analysis.harmonics, analysis.expectedCycles);
  if (finding !== undefined) {
    const nothingFitted = finding.rule === 'no-clear-fundamental';
    return without(finding, nothingFitted ? moments.ac : null);
  }
  const levels = levelsOf(values);
  const floor = noiseFloor(fitted, levels.step);
  const wander = steadiness({
    residual: fitted.residual,
    angle: fitted.fit.angle,
    amplitude: fitted.amplitude,
    phase: phaseOf(fitted, 1) - (fitted.fit.angle * (values.length - 1)) / 2,
    density: Math.max(fitted.near.density, floor.noise ** 2),
  });
  const total = Math.hypot(wander.phase, wander.level);
  if (total > unsteady) {
    return without(messages.unsteadyFundamental(total), null);
  }
  const parts = { channel, analysis, fitted, levels, floor, wander, scale, rms: moments.rms };
  return withDetails(summariseFitted(parts), parts);
}

interface Moments {
  mean: number;
  /** Constant included. */
  rms: number;
  /** Constant left out. */
  ac: number;
}

/** Mean and rms of a record. */
export function momentsOf(values: Float64Array): Moments {
  const [first = 0] = values;
  if (isConstant(values)) return { mean: first, rms: Math.abs(first), ac: 0 };
  const mean = sumOf(values) / values.length;
  const ac = Math.sqrt(squaresOf(values, mean) / values.length);
  return { mean, rms: Math.hypot(mean, ac), ac };
}

const ofFundamental = [
  ...['fundamental', 'harmonics', 'thd', 'thdPlusNoise', 'sinadDb', 'clipping'],
  ...['evenHarmonics', 'oddHarmonics', 'hum', 'bandNoise'],
];

function withoutFigures({ name, role, unit }: Channel, finding: Finding): ChannelResult {
  const withheld = reasons(['dc', 'rms', 'noiseRms', 'crestFactor', ...ofFundamental], finding);
  return { summary: { ...empty, name, role, unit, withheld }, findings: [finding] };
}

function withoutFundamental(
  { name, role, unit, values }: Channel,
  { mean, rms }: Moments,
  finding: Finding,
  noiseRms: number | null,
): ChannelResult {
  const withheld = reasons(noiseRms === null ? ['noiseRms', ...ofFundamental] : ofFundamental, finding);
  const figures = { dc: mean, rms, noiseRms, levelStep: levelsOf(values).step };
  return { summary: { ...empty, name, role, unit, ...figures, withheld }, findings: [finding] };
}

const reasons = (figures: readonly string[], { message }: Finding) =>
  figures.map((figure) => ({ figure, reason: message }));

const empty = {
  ...noDetails,
  dc: null,
  rms: null,
  noiseRms: null,
  fundamental: null,
  harmonics: [],
  thd: null,
  weightedDistortion: null,
  thdPlusNoise: null,
  sinadDb: null,
  clipping: null,
  levelStep: null,
};
