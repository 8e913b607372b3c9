import { line, slug } from '../fields.ts';

/** What every stage says of itself. */
export const stageKeys = {
  /** Short name: `output`. */
  id: slug,
  /** Heading on the page: `Output stage`. */
  title: line.optional(),
};
