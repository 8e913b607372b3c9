import { z } from 'zod';
import { line, wholeNumber } from './fields.ts';

/** pages/<slug>.md: a page of the maker's own, published at /pages/<slug>/. */
export const pageSchema = z.strictObject({
  /** Heading of the page: `How we measure`. */
  title: line,
  /** One sentence: what a reader finds on it. */
  summary: line,
  /** The word for it in the main navigation; without it, the page is found in the list of pages: `Bench`. */
  navigation: line.optional(),
  /** Heading that it is listed under, together with the others that name it: `How to`. */
  group: line.optional(),
  /** Its place among the pages; those without one follow by title: `1`. */
  order: wholeNumber(1).optional(),
});

export type PageData = z.infer<typeof pageSchema>;
