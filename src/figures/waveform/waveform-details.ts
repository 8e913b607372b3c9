import { quantityText } from '../../quantity/index.ts';
import type { BandNoise, ChannelSummary, HarmonicSum, Hum, Transfer } from '../../signal/index.ts';
import type { Draft } from '../draft.ts';

const decibels = (ratio: number) => 20 * Math.log10(ratio);
/** Half width in decibels of a relative half width. */
const halfDecibels = (relative: number) => decibels(1 + relative);
const notTold = 'not told from noise';

/** The sums of the even and of the odd harmonics. */
export function paritySums(channel: ChannelSummary): Draft[] {
  return [
    sumDraft('even-harmonics', channel.evenHarmonics, reasonOf(channel, 'evenHarmonics')),
    sumDraft('odd-harmonics', channel.oddHarmonics, reasonOf(channel, 'oddHarmonics')),
  ];
}

function sumDraft(id: string, sum: HarmonicSum | null, absent: string): Draft {
  if (sum === null) return { id, value: null, unit: '1', absent };
  const { ratio: value, low, high } = sum;
  return { id, value, low, high, unit: '1', ...(low === 0 ? { remark: notTold } : {}) };
}

/** Everything that a channel has beside its fundamental and its distortion. */
export function detailDrafts(channel: ChannelSummary, transfers: readonly Transfer[]): Draft[] {
  const transfer = transfers.find(({ response }) => response === channel.name);
  return [
    {
      id: 'crest-factor',
      value: channel.crestFactor,
      unit: '',
      ...(channel.crestFactor === null ? { absent: reasonOf(channel, 'crestFactor') } : {}),
    },
    ...(transfer ? transferDrafts(transfer) : []),
    ...powerDrafts(channel),
    humDraft(channel),
    ...noiseDrafts(channel),
    ...ratioDrafts(channel),
  ];
}

function transferDrafts({ stimulus, gain, unit, phaseDeg, added, ...transfer }: Transfer): Draft[] {
  const half = halfDecibels((transfer.coverageFactor * transfer.gainUncertainty) / gain);
  const halfDeg = transfer.coverageFactor * transfer.phaseUncertaintyDeg;
  const remark = `from ${stimulus}`;
  const value = decibels(gain);
  const gainDraft: Draft =
    unit === '1'
      ? { id: 'gain-at-fundamental', value, low: value - half, high: value + half, unit: 'dB', remark }
      : {
          ...{ id: 'gain-at-fundamental', value: null, unit: 'dB' },
          absent: `The response is in other units than the stimulus: ${quantityText(gain, unit, 4)}.`,
        };
  return [
    gainDraft,
    {
      id: 'phase-at-fundamental',
      ...{ value: phaseDeg, low: phaseDeg - halfDeg, high: phaseDeg + halfDeg },
      ...{ unit: '°', remark },
    },
    ...(added
      ? [
          { id: 'added-distortion-least', value: added.low, unit: '1', remark: 'a bound' },
          { id: 'added-distortion-most', value: added.high, unit: '1', remark: 'a bound' },
        ]
      : []),
  ];
}

/** Power is a figure only where a load was declared for this channel. */
function powerDrafts({ outputPower: power, fundamental }: ChannelSummary): Draft[] {
  if (power === null) return [];
  const remark = `into ${quantityText(power.loadOhm, 'Ω')}`;
  const half = (fundamental?.coverageFactor ?? 0) * (power.fundamentalUncertaintyW ?? 0);
  const ofFundamental: Draft[] =
    power.fundamentalW === null
      ? []
      : [
          {
            id: 'fundamental-power',
            value: power.fundamentalW,
            low: Math.max(0, power.fundamentalW - half),
            high: power.fundamentalW + half,
            ...{ unit: 'W', remark },
          },
        ];
  return [...ofFundamental, { id: 'output-power', value: power.totalW, unit: 'W', remark }];
}

function humDraft(channel: ChannelSummary): Draft {
  const { hum, unit } = channel;
  if (hum === null) return { id: 'hum', value: null, unit, absent: reasonOf(channel, 'hum') };
  const { rms: value, low, high } = hum;
  const remarks = [...(low === 0 ? [notTold] : []), ...leftOut(hum)];
  return { id: 'hum', value, low, high, unit, ...(remarks.length > 0 ? { remark: remarks.join(', ') } : {}) };
}

/** Multiples that the sum lacks. */
function leftOut({ lines }: Hum): string[] {
  const left = lines.filter(({ harmonic }) => harmonic !== null).map(({ multiple }) => multiple);
  return left.length === 0 ? [] : [`without multiple ${left.join(', ')}, left to harmonics`];
}

const noiseIds: readonly [id: string, key: Exclude<keyof BandNoise, 'bandHz'>, remark: string][] = [
  ['band-noise', 'unweighted', ''],
  ['noise-a-weighted', 'aWeighted', ''],
  ['noise-itu468', 'itu468', ', rms detector'],
];

function noiseDrafts(channel: ChannelSummary): Draft[] {
  const { bandNoise: noise, unit } = channel;
  if (noise === null)
    return noiseIds.map(([id]) => ({ id, value: null, unit, absent: reasonOf(channel, 'bandNoise') }));
  const [from, to] = noise.bandHz;
  const band = `${quantityText(from, 'Hz')} to ${quantityText(to, 'Hz')}`;
  return noiseIds.map(([id, key, remark]) => {
    const { rms: value, low, high } = noise[key];
    return { id, value, low, high, unit, remark: `${band}${remark}` };
  });
}

function ratioDrafts(channel: ChannelSummary): Draft[] {
  const { signalToNoise: ratio, unit } = channel;
  const absent = reasonOf(channel, 'signalToNoise');
  const remark = ratio ? `re the ${ratio.reference}, ${quantityText(ratio.referenceRms, unit)}` : '';
  const draft = (id: string, value: number | undefined): Draft =>
    value === undefined ? { id, value: null, unit: 'dB', absent } : { id, value, unit: 'dB', remark };
  return [draft('signal-to-noise', ratio?.db), draft('signal-to-noise-a-weighted', ratio?.aWeightedDb)];
}

/** Why a figure of a channel is missing, in the words of the analysis. */
function reasonOf({ withheld }: ChannelSummary, figure: string): string {
  return withheld.find((entry) => entry.figure === figure)?.reason ?? 'The record does not support it.';
}
