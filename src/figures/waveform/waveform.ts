import { quantityText } from '../../quantity/index.ts';
import type {
  AnalysisSettings,
  ChannelSummary,
  Harmonic,
  Transfer,
  WaveformSummary,
} from '../../signal/index.ts';
import { definitionOf } from '../registry.ts';
import type { Figure, Provenance } from '../types.ts';
import { detailDrafts, paritySums } from './waveform-details.ts';

/** What a builder of figures needs besides the numbers. */
export interface FigureContext {
  conditions: Readonly<Record<string, string>>;
  provenance: Omit<Provenance, 'method' | 'settings'>;
}

type Draft = Pick<Figure, 'id' | 'value' | 'unit'> &
  Partial<Pick<Figure, 'low' | 'high' | 'absent' | 'remark'>> & { method: string };

/** The figures of every channel of a waveform, in reading order. */
export function waveformFigures(
  { channels, transfers, settings }: WaveformSummary,
  context: FigureContext,
): Figure[] {
  return channels.flatMap((channel) =>
    draftsOf(channel, transfers).map(({ method, ...draft }) => ({
      ...withReason(draft, channel),
      subject: channel.name,
      conditions: context.conditions,
      provenance: { ...context.provenance, method, settings: settingsText(settings) },
    })),
  );
}

function draftsOf(channel: ChannelSummary, transfers: readonly Transfer[]): Draft[] {
  const { fundamental, thd, thdPlusNoise, harmonics, unit } = channel;
  const thdRange = thd ? { low: thd.low, high: thd.high } : {};
  return [
    { id: 'thd', value: thd?.ratio ?? null, ...thdRange, unit: '1', ...noiseRemark(channel), method: 'thd' },
    ...harmonics.map(harmonicDraft),
    ...paritySums(channel).map(withMethod),
    { id: 'thd-plus-noise', value: thdPlusNoise?.ratio ?? null, unit: '1', method: 'thd-plus-noise' },
    { id: 'sinad', value: channel.sinadDb, unit: 'dB', method: 'sinad' },
    frequencyDraft(fundamental),
    levelDraft(fundamental, unit),
    { id: 'noise', value: channel.noiseRms, unit, method: 'noise' },
    { id: 'rms', value: channel.rms, unit, method: 'sine-fit' },
    { id: 'dc', value: channel.dc, unit, method: 'sine-fit' },
    ...detailDrafts(channel, transfers).map(withMethod),
  ];
}

const withMethod = (draft: Omit<Draft, 'method'>): Draft => ({
  ...draft,
  method: definitionOf(draft.id)?.method ?? 'reading',
});

/** A line that folding may have spoilt has no level of its own. */
function harmonicDraft({ order, ratio, low, high, detected, foldedOrders }: Harmonic): Draft {
  const named = { id: `harmonic-${order}`, unit: '1', method: foldedOrders ? 'folding' : 'harmonics' };
  if (foldedOrders) return { ...named, value: null };
  const remark = detected ? {} : { remark: 'not told from noise' };
  return { ...named, value: ratio, low, high, ...remark };
}

/** A total whose interval reaches zero is said to be no more than noise allows. */
const noiseRemark = ({ thd }: ChannelSummary) => (thd?.low === 0 ? { remark: 'not told from noise' } : {});

function frequencyDraft(fundamental: ChannelSummary['fundamental']): Draft {
  const named = { id: 'fundamental-frequency', unit: 'Hz', method: 'sine-fit' };
  if (!fundamental) return { ...named, value: null };
  const { frequencyHz: value, frequencyUncertaintyHz: spread, coverageFactor } = fundamental;
  return { ...named, value, low: value - coverageFactor * spread, high: value + coverageFactor * spread };
}

function levelDraft(fundamental: ChannelSummary['fundamental'], unit: string): Draft {
  const named = { id: 'fundamental-level', unit, method: 'sine-fit' };
  if (!fundamental) return { ...named, value: null };
  const { rms: value, rmsUncertainty: spread, coverageFactor } = fundamental;
  return { ...named, value, low: value - coverageFactor * spread, high: value + coverageFactor * spread };
}

/** A figure that does not exist says why, in the words of the analysis. */
function withReason(draft: Omit<Draft, 'method'>, { withheld }: ChannelSummary): Omit<Draft, 'method'> {
  if (draft.value !== null || draft.absent !== undefined) return draft;
  const reason =
    withheld.find(({ figure }) => figure === (withheldNames[draft.id] ?? draft.id)) ?? withheld[0];
  return { ...draft, absent: reason?.reason ?? 'The record does not support it.' };
}

const withheldNames: Readonly<Record<string, string>> = {
  'fundamental-frequency': 'fundamental',
  'fundamental-level': 'fundamental',
  'thd-plus-noise': 'thdPlusNoise',
  sinad: 'sinadDb',
  noise: 'noiseRms',
};

function settingsText({
  harmonics,
  bandHz,
  mainsHz,
  searchWindow,
  falseAlarmPerRecord,
}: AnalysisSettings): Record<string, string> {
  return {
    'Harmonics counted': `2 to ${harmonics}`,
    'Mains frequency': quantityText(mainsHz, 'Hz'),
    'Band of THD+N': `${quantityText(bandHz[0], 'Hz')} to ${quantityText(bandHz[1], 'Hz')}, or what the record supports`,
    'Window of the search': searchWindow,
    Detection: `noise alone marks a harmonic in ${100 * falseAlarmPerRecord} % of records`,
  };
}
