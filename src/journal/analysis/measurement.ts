import {
  type Figure,
  type Instrument,
  type MeasuredChannel,
  type Measurement,
  sayingClock,
  stepOfRecord,
  withInstrument,
} from '../../figures/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import type { ChannelSummary, TwoToneChannelSummary, WaveformSummary } from '../../signal/index.ts';
import type { CaptureData, JournalSettings } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import type { Analysis } from './analyse.ts';
import type { Peaks } from './peaks.ts';
import type { SweepChannel } from './sweep-channels.ts';

type InstrumentData = JournalSettings['instruments'][number];
type Taken = Pick<CaptureRecord, 'analysis' | 'data'> & { peaks: Peaks };

/** The instrument that a capture names with the channels it took; null where it names none. */
export function measurementOf(taken: Taken, instruments: readonly InstrumentData[]): Measurement | null {
  const stated = instruments.find(({ id }) => id === taken.data.instrument);
  if (!stated) return null;
  const instrument = instrumentOf(stated);
  return { instrument, channels: new Map(channelsOf(taken, instrument)) };
}

function instrumentOf(stated: InstrumentData): Instrument {
  const { name, bits, gainAccuracy, clockAccuracy, bandwidth, largestInput, ownDistortion } = stated;
  return {
    name,
    ...(bits === undefined ? {} : { bits }),
    ...(gainAccuracy === undefined ? {} : { gainAccuracy }),
    ...(clockAccuracy === undefined ? {} : { clockAccuracy }),
    ...(bandwidth === undefined ? {} : { bandwidthHz: bandwidth }),
    ...(largestInput === undefined ? {} : { largestInput }),
    ...(ownDistortion === undefined ? {} : { ownDistortion: distortionPoints(ownDistortion) }),
  };
}

/** One ratio alone holds for every frequency, wherever it is said to stand. */
function distortionPoints(stated: NonNullable<InstrumentData['ownDistortion']>) {
  if (typeof stated === 'number') return [{ frequencyHz: 1000, ratio: stated }];
  return stated.map(({ frequency: frequencyHz, ratio }) => ({ frequencyHz, ratio }));
}

function channelsOf(taken: Taken, instrument: Instrument): [string, MeasuredChannel][] {
  const { analysis, data, peaks } = taken;
  const levels = (channel: ChannelSummary | TwoToneChannelSummary) => ({
    probe: probeOf(data, channel.name),
    peak: peaks.get(channel.name)?.size ?? 0,
    levelStep: channel.levelStep,
  });
  const step = (channel: ChannelSummary | TwoToneChannelSummary) =>
    channel.unit === 'V' ? stepOfRecord(instrument, levels(channel)) : null;
  switch (analysis.kind) {
    case 'waveform':
      return analysis.summary.channels.map((channel) => [
        channel.name,
        { ...ofWaveform(channel, analysis.summary), step: step(channel) },
      ]);
    case 'two-tone':
      return analysis.summary.channels.map((channel) => [
        channel.name,
        { ...unknown, twoTone: channel, step: step(channel) },
      ]);
    case 'unsummarised':
      return [];
    default:
      return analysis.sweeps.map(({ channel }) => [
        channel.name,
        ofSweep(channel, { analysis, data, instrument, probe: probeOf(data, channel.level?.name ?? '') }),
      ]);
  }
}

const unknown: MeasuredChannel = {
  frequencyHz: null,
  freedom: Number.POSITIVE_INFINITY,
  gainFreedom: Number.POSITIVE_INFINITY,
  step: null,
  loadOhm: null,
  ratedReference: false,
  harmonics: [],
  twoTone: null,
};

function ofWaveform(
  { fundamental, signalToNoise, harmonics }: ChannelSummary,
  { channels }: WaveformSummary,
): MeasuredChannel {
  const freedoms = channels.flatMap((channel) => channel.fundamental?.freedom ?? []);
  return {
    ...unknown,
    frequencyHz: fundamental?.frequencyHz ?? null,
    freedom: fundamental?.freedom ?? Number.POSITIVE_INFINITY,
    gainFreedom: Math.min(...freedoms),
    ratedReference: signalToNoise?.reference === 'rated output',
    harmonics,
  };
}

interface SweepContext {
  analysis: Exclude<Analysis, { kind: 'waveform' | 'two-tone' | 'unsummarised' }>;
  data: CaptureData;
  instrument: Instrument;
  probe: number;
}

/** A level sweep says its frequency among the conditions, if at all. */
function ofSweep(
  { level }: SweepChannel,
  { analysis, data, instrument, probe }: SweepContext,
): MeasuredChannel {
  const stated = parseQuantity(data.conditions['frequency'] ?? '', 'frequency');
  const inVolts = level?.quantity === 'voltage';
  return {
    ...unknown,
    frequencyHz: 'quantity' in stated ? stated.quantity.value : null,
    step: inVolts ? stepOfRecord(instrument, { probe, peak: 0, levelStep: null }) : null,
    loadOhm: analysis.kind === 'level-sweep' && inVolts ? analysis.loadOhm : null,
  };
}

/** Figures as the instrument allows them; those in hertz say where its clock is not among what is stated. */
export function measuredFigures(figures: Figure[], measurement: Measurement | null): Figure[] {
  const measured = measurement ? withInstrument(figures, measurement) : figures;
  return measured.map((figure) => sayingClock(figure, measurement?.instrument ?? null));
}

/** What a probe ahead of the instrument divides by; a scale below 1 converts the file's own numbers and is none. */
export function probeOf({ columns }: CaptureData, name: string): number {
  return Math.max(1, columns?.[name]?.scale ?? 1);
}
