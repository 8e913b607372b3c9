import type { CaptureKind } from '../../capture/index.ts';
import { fewestDensitySamples } from '../../signal/index.ts';
import type { CaptureRecord } from '../types.ts';
import { sweepChannels } from './sweep-channels.ts';

/** Charts of a capture that an author can place and that a capture page shows. */
export type ChartKind =
  | 'spectrum'
  | 'excerpt'
  | 'noise'
  | 'response'
  | 'thd'
  | 'harmonics'
  | 'power'
  | 'impedance'
  | 'output-impedance'
  | 'loudspeaker-response';

const drawn: Readonly<Partial<Record<CaptureKind, readonly ChartKind[]>>> = {
  waveform: ['spectrum', 'excerpt', 'noise'],
  'two-tone': ['spectrum', 'excerpt'],
  'frequency-sweep': ['response', 'thd', 'harmonics', 'output-impedance', 'loudspeaker-response'],
  'level-sweep': ['power', 'harmonics'],
  'impedance-sweep': ['impedance', 'loudspeaker-response'],
};

/** The charts that a capture's columns support, the most telling first. */
export function chartKindsOf({
  kind,
  capture,
  output,
}: Pick<CaptureRecord, 'kind' | 'capture' | 'output'>): ChartKind[] {
  const has = (quantity: string) => capture.columns.some((column) => column.quantity === quantity);
  const needs: Readonly<Partial<Record<ChartKind, () => boolean>>> = {
    noise: () => capture.table.rows >= fewestDensitySamples,
    thd: () => has('thd') || has('thd-plus-noise'),
    harmonics: () => has('harmonic'),
    power: () => has('thd') || has('thd-plus-noise') || has('harmonic'),
    'output-impedance': () => output !== null,
    'loudspeaker-response': () => Boolean(output?.loudspeaker?.error),
    response: () => has('voltage') || has('gain') || has('current') || has('power'),
  };
  return (drawn[kind] ?? []).filter((chart) => needs[chart]?.() ?? true);
}

/** The channels of a capture that a chart or a figure can be asked for. */
export function channelsOf({ kind, capture }: Pick<CaptureRecord, 'kind' | 'capture'>): string[] {
  const sampled = kind === 'waveform' || kind === 'two-tone';
  return (sampled ? capture.columns : sweepChannels(capture)).map(({ name }) => name);
}
