import type { Journal } from '../../journal/index.ts';
import { journalSchema } from '../../journal/schemas/index.ts';

/** A journal without records, for a server that starts before there is one that can be read. */
export function standIn(folder: string): Journal {
  return {
    folder,
    settings: journalSchema.parse({ title: 'Journal', author: '-' }),
    amplifiers: [],
    versions: [],
    units: [],
    parts: [],
    decisions: [],
    listening: [],
    comparisons: [],
    logs: [],
    pages: [],
    tubes: {},
    files: [],
  };
}
