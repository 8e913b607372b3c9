import type { ChannelSummary, WaveformSummary } from '../../signal/index.ts';
import { type Draft, draftsComplete } from '../draft.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import type { FigureContext } from './waveform.ts';

/** Weighted sums of the harmonics of every channel that has harmonics; to be shown apart from the others. */
export function contestedFigures({ channels }: WaveformSummary, context: FigureContext): Figure[] {
  return channels.flatMap((channel) => draftsComplete(draftsOf(channel), { channel: channel.name }, context));
}

function draftsOf({ weightedDistortion: weighted }: ChannelSummary): Draft[] {
  if (weighted === null) return [];
  const draft = (id: string, { ratio: value, low, high }: typeof weighted.rma1937): Draft => ({
    ...{ id, value, low, high, unit: '1' },
    ...(low === 0 ? { remark: 'not told from noise' } : {}),
  });
  return [draft('thd-weighted-rma', weighted.rma1937), draft('thd-weighted-shorter', weighted.shorter1950)];
}

/** True for a figure whose meaning is contested; it stands in a table of its own. */
export const isContested = ({ id }: Pick<Figure, 'id'>): boolean => definitionOf(id)?.contested === true;

/** What stands above the contested figures. */
export const contestedHeading = 'Contested weightings';

/** What is said beside them, in full sentences. */
export const contestedNote =
  'Weights that were proposed on the ground that high orders are heard more easily than low ones. Neither is agreed on, and neither says what a listener will hear; they compare captures of one kind at most.';
