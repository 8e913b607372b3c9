import { z } from 'zod';
import { line } from './fields.ts';

/** Words of the site that the maker may choose; what is left out stays as it is. */
export const wordsSchema = z.strictObject({
  /** Name of the list of logs, in the navigation and above it: `Bench notes`. */
  logs: line.optional(),
  /** Name of the list of amplifiers, which heads them on the first page too: `Designs`. */
  amplifiers: line.optional(),
  /** Name of the list of parts: `Components`. */
  parts: line.optional(),
  /** Name of the list of comparisons: `Side by side`. */
  comparisons: line.optional(),
  /** Name of the list of decisions: `Choices`. */
  decisions: line.optional(),
  /** Name of the list of listening sessions: `Heard`. */
  listening: line.optional(),
  /** Name of the list of the maker's own pages, which heads them on the first page too: `About the bench`. */
  pages: line.optional(),
  /** Heading of the newest logs on the first page: `This month at the bench`. */
  latestLogs: line.optional(),
  /** Heading of the open questions on the first page: `Not understood yet`. */
  openQuestions: line.optional(),
  /** A sentence at the foot of every page: `Written in a shed by the river.` */
  footer: line.optional(),
});

/** A list of records that the site has a page of. */
export type NamedList = 'logs' | 'amplifiers' | 'parts' | 'comparisons' | 'decisions' | 'listening' | 'pages';
