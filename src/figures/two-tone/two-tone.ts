import { quantityText } from '../../quantity/index.ts';
import type {
  CombinationLine,
  Fundamental,
  IntermodulationFigure,
  TwoToneChannelSummary,
  TwoToneSettings,
  TwoToneSummary,
} from '../../signal/index.ts';
import type { Draft } from '../draft.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import type { FigureContext } from '../waveform/waveform.ts';
import { intermodulationId } from './two-tone-definitions.ts';

const notTold = { remark: 'not told from noise' };
/** Lines of higher orders are figures only where they are told from noise. */
const alwaysShown = 3;

/** The figures of every channel of a two-tone capture, in reading order. */
export function twoToneFigures({ channels, settings }: TwoToneSummary, context: FigureContext): Figure[] {
  return channels.flatMap((channel) =>
    draftsOf(channel).map((draft) => ({
      ...draft,
      subject: channel.name,
      conditions: context.conditions,
      provenance: {
        ...context.provenance,
        method: definitionOf(draft.id)?.method ?? 'two-tones',
        settings: settingsText(settings),
      },
    })),
  );
}

function draftsOf(channel: TwoToneChannelSummary): Draft[] {
  const { tones, products, noiseRms, rms, dc, unit, withheld } = channel;
  const absent = withheld[0]?.reason ?? 'The record does not support it.';
  const reason = (value: number | null) => (value === null ? { absent } : {});
  return [
    ...setDrafts(channel),
    ...products.filter(({ order, detected }) => order <= alwaysShown || detected).map(lineDraft),
    ...(tones ? [...toneDrafts('lower', tones.lower, unit), ...toneDrafts('upper', tones.upper, unit)] : []),
    { id: 'two-tone-noise', value: noiseRms, unit, ...reason(noiseRms) },
    { id: 'rms', value: rms, unit, ...reason(rms) },
    { id: 'dc', value: dc, unit, ...reason(dc) },
  ];
}

/** The set of figures that the tones are made for; without any, the reason in the place of the first of either. */
function setDrafts(channel: TwoToneChannelSummary): Draft[] {
  const { modulation: am, differenceFrequency: beat } = channel;
  const draft = (id: string, figure: IntermodulationFigure | null, key: string) =>
    sumDraft(id, figure, reasonOf(channel, key));
  if (am) {
    return [
      draft('modulation-second', am.second, 'modulation.second'),
      draft('modulation-third', am.third, 'modulation.third'),
      draft('modulation-total', am.total, 'modulation.total'),
      draft('modulation-sidebands', am.sidebands, 'modulation.sidebands'),
    ];
  }
  if (beat) {
    return [
      draft('difference-second', beat.second, 'differenceFrequency.second'),
      draft('difference-second-one-tone', beat.secondOneTone, 'differenceFrequency.secondOneTone'),
      draft('difference-third', beat.third, 'differenceFrequency.third'),
      draft('difference-third-rss', beat.thirdRss, 'differenceFrequency.thirdRss'),
    ];
  }
  return [
    draft('modulation-second', null, 'modulation'),
    draft('difference-second', null, 'differenceFrequency'),
  ];
}

const reasonOf = ({ withheld }: TwoToneChannelSummary, key: string) =>
  withheld.find(({ figure }) => figure === key)?.reason ?? 'The record does not support it.';

function sumDraft(id: string, figure: IntermodulationFigure | null, absent: string): Draft {
  if (figure === null) return { id, value: null, unit: '1', absent };
  const { ratio: value, low, high } = figure;
  return { id, value, low, high, unit: '1', ...(low === 0 ? notTold : {}) };
}

function lineDraft({ name, ratio: value, low, high, detected }: CombinationLine): Draft {
  return { id: intermodulationId(name), value, low, high, unit: '1', ...(detected ? {} : notTold) };
}

function toneDrafts(which: 'lower' | 'upper', tone: Fundamental, unit: string): Draft[] {
  const around = (value: number, deviation: number) => ({
    ...{ value, low: value - tone.coverageFactor * deviation, high: value + tone.coverageFactor * deviation },
  });
  return [
    { id: `${which}-tone-frequency`, unit: 'Hz', ...around(tone.frequencyHz, tone.frequencyUncertaintyHz) },
    { id: `${which}-tone-level`, unit, ...around(tone.rms, tone.rmsUncertainty) },
  ];
}

function settingsText({ tonesHz, ...settings }: TwoToneSettings): Record<string, string> {
  return {
    Tones: tonesHz
      ? `declared as ${tonesHz.map((hertz) => quantityText(hertz, 'Hz', 5)).join(' and ')}`
      : 'the two strongest lines',
    'Lines fitted': `combinations of both tones up to order ${settings.highestOrder}`,
    'Window of the search': settings.searchWindow,
    Detection: `noise alone marks a line in ${100 * settings.falseAlarmPerRecord} % of records`,
  };
}
