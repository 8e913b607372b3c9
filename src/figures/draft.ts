import { definitionOf } from './registry.ts';
import type { Figure } from './types.ts';
import type { FigureContext } from './waveform/waveform.ts';

/** What a sweep's figures belong to. */
export interface SweepSubject {
  channel: string;
  /** SI unit of the channel's level. */
  unit: string;
}

/** A figure before it is known of what, under which conditions and from where. */
export type Draft = Pick<Figure, 'id' | 'value' | 'unit'> &
  Partial<Pick<Figure, 'low' | 'high' | 'absent' | 'remark'>> & {
    /** Conditions of this figure alone. */
    at?: Readonly<Record<string, string>>;
  };

/** Figures with their subject, conditions and provenance; the method is that of the registry. */
export function draftsComplete(
  drafts: readonly Draft[],
  { channel }: Pick<SweepSubject, 'channel'>,
  { conditions, provenance }: FigureContext,
): Figure[] {
  return drafts.map(({ at, ...draft }) => ({
    ...draft,
    subject: channel,
    conditions: { ...conditions, ...at },
    provenance: { ...provenance, method: definitionOf(draft.id)?.method ?? 'between-points', settings: {} },
  }));
}
