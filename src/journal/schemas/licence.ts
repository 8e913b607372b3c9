import { z } from 'zod';
import { line } from './fields.ts';

const shortName = line.refine((text) => /^[A-Za-z0-9][A-Za-z0-9.+-]*$/.test(text), {
  error: (issue) => `"${String(issue.input)}" is not the short name of a licence.`,
  params: { rule: 'licence', hint: 'Write letters, digits, dots and hyphens, for example CC-BY-4.0.' },
});

const webAddress = line.refine((text) => URL.canParse(text) && /^https?:\/\//i.test(text), {
  error: (issue) => `"${String(issue.input)}" is not an address on the web.`,
  params: {
    rule: 'licence',
    hint: 'Write where its text stands, for example https://creativecommons.org/licenses/by/4.0/.',
  },
});

/** What others may do with captures and figures. */
export const licenceSchema = z.strictObject({
  /** Its short name: `CC-BY-4.0`. */
  name: shortName,
  /** Where its text stands: `https://creativecommons.org/licenses/by/4.0/`. */
  address: webAddress,
});
