import type { Figure } from '../../figures/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { CaptureRecord } from '../types.ts';

/** Figures whose remark names what they are taken over or referred to. */
const remarked = /^(signal-to-noise|band-noise|noise-|output-power|fundamental-power|damping-factor|gain-at)/;

/**
 * What a figure is taken over or referred to, where figures of one name compare only if that agrees: the band of a
 * noise, the reference of a ratio. Empty for figures that need no such words.
 */
export function termsOf({ id, subject, remark = '' }: Figure, capture: CaptureRecord): string {
  if (id === 'noise' || id === 'two-tone-noise') return bandOfRecord(capture);
  if (id === 'thd-plus-noise' || id === 'sinad') return bandOfNoise(capture, subject);
  return remarked.test(id) ? (remark.split(',')[0] ?? '') : '';
}

function bandOfRecord({ capture }: CaptureRecord): string {
  const rateHz = capture.sampling?.rateHz;
  return rateHz === undefined ? '' : `up to ${quantityText(rateHz / 2, 'Hz')}`;
}

function bandOfNoise({ analysis }: CaptureRecord, subject: string | undefined): string {
  if (analysis.kind !== 'waveform') return '';
  const channel = analysis.summary.channels.find(({ name }) => name === subject);
  const band = channel?.thdPlusNoise?.bandHz.map((hertz) => quantityText(hertz, 'Hz'));
  return band ? band.join(' to ') : '';
}
