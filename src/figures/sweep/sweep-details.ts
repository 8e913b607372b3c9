import { quantityText } from '../../quantity/index.ts';
import type {
  BandLeftOut,
  DistortionEdge,
  DistortionLaw,
  FrequencyBand,
  FrequencySweepDetails,
  GainFall,
  LevelSweepDetails,
} from '../../signal/index.ts';
import { type Draft, draftsComplete, type SweepSubject } from '../draft.ts';
import type { Figure } from '../types.ts';
import type { FigureContext } from '../waveform/waveform.ts';
import { absence } from './sweep-absence.ts';

/** Where distortion rises towards the ends of one channel's frequency sweep. */
export function distortionRiseFigures(
  { edges }: FrequencySweepDetails,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  if (!edges) return [];
  const { midBandRatio, onset, crossings } = edges;
  const noMiddle = midBandRatio === null ? { absent: absence.noMidBand() } : {};
  const drafts: Draft[] = [
    { id: 'thd-mid-band', value: midBandRatio, unit: '1', ...noMiddle },
    onset ? edgeDraft('thd-onset', onset) : { id: 'thd-onset', value: null, unit: 'Hz', ...noMiddle },
    ...crossings.map((edge) => edgeDraft(`${edge.side}-edge-${Math.round(100 * edge.ratio)}-percent`, edge)),
  ];
  return draftsComplete(drafts, subject, context);
}

function edgeDraft(id: string, edge: DistortionEdge): Draft {
  const named = { id, value: edge.atHz, unit: 'Hz' };
  if (edge.absence === null) return named;
  return {
    ...named,
    absent: edge.absence === 'end below' ? absence.endBelow(edge) : absence.alwaysAbove(edge),
  };
}

/** How distortion follows the level of one channel, and where the amplifier stops. */
export function levelLawFigures(
  { laws, clippingOnset, gainFall }: LevelSweepDetails,
  subject: SweepSubject,
  context: FigureContext,
): Figure[] {
  const onset = clippingOnset && {
    id: 'clipping-onset',
    value: clippingOnset.powerW,
    unit: 'W',
    ...(clippingOnset.absence ? { absent: absence.onset(clippingOnset.absence) } : {}),
  };
  const drafts = [...(onset ? [onset] : []), ...gainDraft(gainFall), ...laws.map(lawDraft)];
  return draftsComplete(drafts, subject, context);
}

/** Without an input voltage there is no gain to speak of, and no row for it. */
function gainDraft({ powerW, absence: why }: GainFall): Draft[] {
  if (why === 'no input') return [];
  return [{ id: 'gain-fall', value: powerW, unit: 'W', ...(why ? { absent: absence.gain(why) } : {}) }];
}

function lawDraft({ order, slope, slopeLow, slopeHigh, rangeW }: DistortionLaw): Draft {
  const named = { id: order === null ? 'thd-slope' : `harmonic-${order}-slope`, unit: 'dB/dB' };
  if (slope === null || slopeLow === null || slopeHigh === null || !rangeW) {
    return { ...named, value: null, absent: absence.noLaw() };
  }
  const [from, to] = rangeW.map((watts) => quantityText(watts, 'W'));
  return { ...named, value: slope, low: slopeLow, high: slopeHigh, remark: `from ${from} to ${to}` };
}

/** The nominal name of a band: "31.5 Hz", "1.25 kHz". */
export function bandName({ nominalHz }: Pick<FrequencyBand, 'nominalHz'>): string {
  return nominalHz < 1000 ? `${nominalHz}\u00a0Hz` : `${nominalHz / 1000}\u00a0kHz`;
}

/** Why some bands that a sweep touches have no mean, in one sentence each; empty where all have one. */
export function bandNotes(leftOut: readonly BandLeftOut[]): string[] {
  return (['partly outside', 'no reading'] as const).flatMap((because) => {
    const names = leftOut.filter((entry) => entry.because === because).map(({ band }) => bandName(band));
    if (names.length === 0) return [];
    return [because === 'no reading' ? absence.bandsEmpty(names) : absence.bandsPartly(names)];
  });
}
