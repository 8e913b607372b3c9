import type { Capture, Column } from '../../capture/index.ts';
import type { Fault } from '../../problem/index.ts';
import {
  type Channel,
  type FrequencySweepDetails,
  type FrequencySweepSummary,
  frequencySweepDetails,
  type HarmonicColumn,
  type ImpedanceDetails,
  type ImpedanceSweepSummary,
  impedanceDetails,
  type LevelSweepDetails,
  type LevelSweepSummary,
  levelSweepDetails,
  type RatedOutput,
  type SignalWarning,
  summariseFrequencySweep,
  summariseImpedanceSweep,
  summariseLevelSweep,
  summariseWaveform,
  type WaveformOptions,
  type WaveformSummary,
} from '../../signal/index.ts';
import { analyseTwoTone, type TwoToneAnalysed } from './analyse-two-tone.ts';
import { type SweepChannel, sweepChannels } from './sweep-channels.ts';

/** One channel of a sweep: its columns and what was computed from them. */
export interface AnalysedSweep<Summary> {
  channel: SweepChannel;
  summary: Summary;
}

/** What was computed from a capture, by kind. */
export type Analysis =
  | { kind: 'waveform'; rateHz: number; channels: Channel[]; summary: WaveformSummary }
  | {
      kind: 'frequency-sweep';
      axis: Column;
      sweeps: AnalysedSweep<FrequencySweepSummary & FrequencySweepDetails>[];
    }
  | {
      kind: 'level-sweep';
      axis: Column;
      loadOhm: number | null;
      sweeps: AnalysedSweep<LevelSweepSummary & LevelSweepDetails>[];
    }
  | {
      kind: 'impedance-sweep';
      axis: Column;
      sweeps: AnalysedSweep<ImpedanceSweepSummary & ImpedanceDetails>[];
    }
  | TwoToneAnalysed
  | { kind: 'unsummarised' };

/** An analysis with what a reader must mind. */
export interface Analysed {
  analysis: Analysis;
  warnings: Fault[];
}

/** Settings that a log gives to the analysis of a capture. */
export interface AnalysisRequest {
  harmonics?: number | undefined;
  bandHz?: [number, number] | undefined;
  loadOhm?: number | undefined;
  /** Powers at which the distortion of a level sweep is stated, besides 1 W. */
  powersW?: readonly number[] | undefined;
  /** Nominal frequency of the mains; 50 Hz unless stated. */
  mainsHz?: number | undefined;
  /** What the version measured is rated to deliver. */
  rated?: RatedOutput | undefined;
  /** The two tones of a two-tone capture; left out, the two strongest lines. */
  tonesHz?: readonly [number, number] | undefined;
  /** Where the instrument's band ends. */
  bandwidthHz?: number | undefined;
}

/** Computes what a capture's kind supports; other kinds are shown and offered for download as they are. */
export function analyse(capture: Capture, request: AnalysisRequest): Analysed {
  const { kind, sampling, columns } = capture;
  const axis = columns.find((column) => column.axis);
  if (kind === 'waveform' && sampling) return analyseWaveform(capture, sampling.rateHz, request);
  if (kind === 'two-tone' && sampling) {
    const analysis = analyseTwoTone(capture, sampling.rateHz, request.tonesHz);
    return { analysis, warnings: analysis.summary.warnings.map(faultOf) };
  }
  if (kind === 'frequency-sweep' && axis) return analyseFrequencySweep(capture, axis);
  if (kind === 'level-sweep' && axis) return analyseLevelSweep(capture, axis, request);
  if (kind === 'impedance-sweep' && axis) return analyseImpedanceSweep(capture, axis);
  return { analysis: { kind: 'unsummarised' }, warnings: [] };
}

function analyseWaveform(
  { columns }: Capture,
  rateHz: number,
  { powersW: _, tonesHz: _tones, ...request }: AnalysisRequest,
): Analysed {
  const channels = columns.map(
    ({ name, role = null, unit, values }): Channel => ({ name, role, unit, values }),
  );
  const summary = summariseWaveform(channels, rateHz, stated(request));
  return {
    analysis: { kind: 'waveform', rateHz, channels, summary },
    warnings: summary.warnings.map(faultOf),
  };
}

/** The settings that are stated. */
function stated(request: Omit<AnalysisRequest, 'powersW' | 'tonesHz'>): WaveformOptions {
  return Object.fromEntries(Object.entries(request).filter(([, value]) => value !== undefined));
}

function analyseFrequencySweep(capture: Capture, axis: Column): Analysed {
  const sweeps = sweepChannels(capture).map((channel) => {
    const { level, phase, thd, harmonics } = channel;
    const sweep = {
      frequencyHz: axis.values,
      ...(level && { level: amplitudeOf(level) }),
      ...(phase && { phaseDeg: phase.values }),
      ...(thd && { thd: thd.values }),
      harmonics: harmonics.map(harmonicColumn),
    };
    return { channel, summary: { ...summariseFrequencySweep(sweep), ...frequencySweepDetails(sweep) } };
  });
  return { analysis: { kind: 'frequency-sweep', axis, sweeps }, warnings: warningsOf(sweeps) };
}

function analyseLevelSweep(
  capture: Capture,
  axis: Column,
  { loadOhm, powersW = [] }: AnalysisRequest,
): Analysed {
  const options = {
    ...(loadOhm === undefined ? {} : { loadOhm }),
    powersW: [...new Set([1, ...powersW])].sort((a, b) => a - b),
  };
  const input = capture.columns.find(({ role, quantity }) => role === 'stimulus' && quantity === 'voltage');
  const sweeps = sweepChannels(capture).map((channel) => {
    const { level, thd, harmonics } = channel;
    const power = level?.quantity === 'power' ? level : axis.quantity === 'power' ? axis : null;
    const sweep = {
      ...(input && { inputV: input.values }),
      ...(power && { powerW: power.values }),
      ...(level?.quantity === 'voltage' && { outputV: level.values }),
      ...(thd && { thd: thd.values }),
      harmonics: harmonics.map(harmonicColumn),
    };
    const summary = { ...summariseLevelSweep(sweep, options), ...levelSweepDetails(sweep, options) };
    return { channel, summary };
  });
  return {
    analysis: { kind: 'level-sweep', axis, loadOhm: loadOhm ?? null, sweeps },
    warnings: warningsOf(sweeps),
  };
}

function analyseImpedanceSweep(capture: Capture, axis: Column): Analysed {
  const sweeps = sweepChannels(capture).flatMap((channel) => {
    const { level, phase } = channel;
    if (!level) return [];
    const sweep = { frequencyHz: axis.values, ohm: level.values };
    const details = impedanceDetails({ ...sweep, ...(phase && { phaseDeg: phase.values }) });
    return [{ channel, summary: { ...summariseImpedanceSweep(sweep), ...details } }];
  });
  return { analysis: { kind: 'impedance-sweep', axis, sweeps }, warnings: [] };
}

/** A level in watts becomes the amplitude that goes with its root, so that decibels agree. */
function amplitudeOf({ quantity, values }: Column): Float64Array {
  return quantity === 'power' ? values.map(Math.sqrt) : values;
}

const harmonicColumn = ({ order, values }: Column & { order: number }): HarmonicColumn => ({
  order,
  ratio: values,
});

const warningsOf = (sweeps: readonly AnalysedSweep<{ warnings: SignalWarning[] }>[]): Fault[] =>
  sweeps.flatMap(({ channel, summary }) =>
    summary.warnings.map((warning) => faultOf({ ...warning, channel: channel.name })),
  );

function faultOf({ rule, channel, message, hint }: SignalWarning): Fault {
  const named = channel === null ? message : `Channel "${channel}": ${message}`;
  return hint === undefined ? { rule, message: named } : { rule, message: named, hint };
}
