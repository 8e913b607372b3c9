import { scaled } from '../fit/scaled.ts';
import type { Finding } from '../messages.ts';
import { waveformMessages } from '../messages.ts';
import { overallDensity } from '../noise/residual-density.ts';
import { faultOf, momentsOf } from '../record/channel-summary.ts';
import { isClipped } from '../record/clipping.ts';
import { fewestLevels, levelsOf } from '../record/quantisation.ts';
import { steadiness } from '../record/steadiness.ts';
import { squaresOf } from '../statistics/statistics.ts';
import type { Channel } from '../types.ts';
import { combinationLines, type MeasuredLine, phaseAtStart, toneFigures } from './combination-lines.ts';
import { differenceFrequencyDistortion, modulationDistortion, patternOf } from './intermodulation.ts';
import { type FittedCombination, type FittedPair, fitTonePair } from './tone-pair.ts';
import { twoToneMessages as messages, tonesText } from './two-tone-messages.ts';
import type { CombinationLine, TwoToneChannelSummary } from './two-tone-types.ts';
import { twoToneFindings, withheldOf } from './two-tone-withheld.ts';

/** What every channel of a two-tone record is analysed with. */
export interface TwoToneAnalysis {
  rateHz: number;
  /** Declared tones, hertz, ascending. */
  tonesHz: readonly [number, number] | null;
}

/** A channel's figures with what must be said of them. */
export interface TwoToneResult {
  summary: TwoToneChannelSummary;
  findings: Finding[];
}

/** Wander of a tone, re its amplitude, beyond which it is no steady sine: a tenth of its power. */
const unsteady = Math.sqrt(0.1);

/** The two-tone figures of one channel. */
export function summariseTwoToneChannel(channel: Channel, analysis: TwoToneAnalysis): TwoToneResult {
  const { values: samples, name, role, unit } = channel;
  const empty = { ...nothing, name, role, unit };
  const fault = faultOf(samples, analysis.rateHz);
  if (fault !== null)
    return { summary: { ...empty, ...withheldOf(fault, ['dc', 'rms']) }, findings: [fault] };
  const { values, scale } = scaled(samples);
  const moments = momentsOf(values);
  const plain = { ...empty, dc: moments.mean * scale, rms: moments.rms * scale };
  const found =
    moments.ac === 0 ? { finding: waveformMessages.constantRecord() } : steadyPair(values, analysis);
  if (found.finding !== undefined) {
    return { summary: { ...plain, ...withheldOf(found.finding) }, findings: [found.finding] };
  }
  return summariseFitted({ values, scale, plain, fitted: found.fitted, rateHz: analysis.rateHz });
}

/** Both tones fitted and steady, or why not. */
function steadyPair(values: Float64Array, { rateHz, tonesHz }: TwoToneAnalysis) {
  const toCycles = values.length / rateHz;
  const declared = tonesHz && ([tonesHz[0] * toCycles, tonesHz[1] * toCycles] as const);
  const found = fitTonePair(values, declared);
  const finding = found.fitted && (wanderOf(found.fitted, 'lower') ?? wanderOf(found.fitted, 'upper'));
  return finding ? { finding } : found;
}

function wanderOf(fitted: FittedPair, which: 'lower' | 'upper'): Finding | null {
  const { residual } = fitted;
  const { line, amplitude, near }: FittedCombination = fitted[which];
  const phase = phaseAtStart(fitted[which], residual.length);
  const wander = steadiness({ residual, angle: line.angle, amplitude, phase, density: near.density });
  const total = Math.hypot(wander.phase, wander.level);
  return total > unsteady ? messages.unsteadyTone(which, total) : null;
}

interface FittedParts {
  values: Float64Array;
  scale: number;
  plain: TwoToneChannelSummary;
  fitted: FittedPair;
  rateHz: number;
}

function summariseFitted({ values, scale, plain, fitted, rateHz }: FittedParts): TwoToneResult {
  const levels = levelsOf(values);
  const { step } = levels;
  const lines = combinationLines(fitted, step, rateHz);
  const lower = toneFigures(fitted, fitted.lower, step, rateHz);
  const upper = toneFigures(fitted, fitted.upper, step, rateHz);
  const pattern = patternOf(lower, upper);
  const input = { lines, lower, upper, finePerCycle: fitted.spectrum.finePerCycle };
  const summary: TwoToneChannelSummary = {
    ...plain,
    dc: fitted.constant * scale,
    noiseRms: scale * Math.sqrt(squaresOf(fitted.residual) / fitted.residual.length),
    tones: { lower: times(lower, scale), upper: times(upper, scale), levelRatio: lower.rms / upper.rms },
    pattern,
    products: sortedLines(lines.filter(isProduct)),
    harmonics: sortedLines(lines.filter((line) => !isProduct(line))),
    modulation: pattern === 'modulation' ? modulationDistortion(input) : null,
    differenceFrequency: pattern === 'difference-frequency' ? differenceFrequencyDistortion(input) : null,
    clipping: levels.count < fewestLevels ? null : clips(values, fitted, step),
    levelStep: step === null ? null : step * scale,
  };
  const text = tonesText(lower.frequencyHz, upper.frequencyHz);
  return twoToneFindings(summary, fitted.lost, text);
}

const times = (tone: ReturnType<typeof toneFigures>, scale: number) => ({
  ...tone,
  rms: tone.rms * scale,
  rmsUncertainty: tone.rmsUncertainty * scale,
});

/** Tops of two tones are highest once in each of their beats, or once in each cycle of a far lower tone. */
function clips(values: Float64Array, { lower, upper, spectrum, residual }: FittedPair, step: number | null) {
  const cycles = Math.min(lower.cycles, upper.cycles - lower.cycles);
  const { typical } = overallDensity(spectrum, residual.length);
  const noise = Math.sqrt(Math.max(0, typical - (step === null ? 0 : (step * step) / 12)));
  return isClipped({ values, step, noise, cycles });
}

const isProduct = ({ first, second }: CombinationLine) => first !== 0 && second !== 0;

/** By order, and by frequency within it. */
const sortedLines = (lines: readonly MeasuredLine[]) =>
  lines.toSorted((a, b) => a.order - b.order || a.frequencyHz - b.frequencyHz).map(asLine);

function asLine({ freedom: _freedom, noiseLines: _noiseLines, ...line }: MeasuredLine): CombinationLine {
  return line;
}

const nothing = {
  dc: null,
  rms: null,
  noiseRms: null,
  tones: null,
  pattern: null,
  products: [],
  harmonics: [],
  modulation: null,
  differenceFrequency: null,
  clipping: null,
  levelStep: null,
  withheld: [],
};
