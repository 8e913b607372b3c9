import { z } from 'zod';
import { type Dimension, parseQuantity } from '../../quantity/index.ts';

/**
 * A text or a bare number, which counts as the text it was written as; anything else is not `expected`. `kind` is what
 * schemas for editors and the reference call it.
 */
const written = (expected: string, kind: string) =>
  z
    .union([z.string(), z.number()], { error: `${expected} is expected` })
    .meta({ title: kind })
    .transform(String);

/** A quantity with its unit, read into SI: `5 kΩ`, `48 mA`. With several dimensions the first that fits wins. */
export function quantity(...dimensions: [Dimension, ...Dimension[]]) {
  return written('A value with its unit', dimensions.join(' or ')).transform((text, context) => {
    const readings = dimensions.map((dimension) => parseQuantity(text, dimension));
    const fitting = readings.find((reading) => 'quantity' in reading);
    if (fitting && 'quantity' in fitting) return fitting.quantity.value;
    const first = readings[0];
    if (first && 'fault' in first) {
      const { message, rule, hint } = first.fault;
      context.addIssue({ code: 'custom', message, params: { rule, hint } });
    }
    return z.NEVER;
  });
}

/** A calendar date, `2026-02-07`. */
export const date = written('A date', 'date').refine(isDate, {
  error: (issue) => `"${String(issue.input)}" is not a date.`,
  params: { rule: 'date', hint: 'Write year, month and day, for example 2026-02-07.' },
});

/** A line of text that is not empty. */
export const line = written('A text', 'text').pipe(z.string().trim().min(1));

/** A short name that can stand in an address: `tone-1w`. */
export const slug = z
  .string()
  .meta({ title: 'short name' })
  .refine((text) => /^[a-z0-9][a-z0-9-]*$/.test(text), {
    error: (issue) => `"${String(issue.input)}" cannot stand in an address.`,
    params: { rule: 'short-name', hint: 'Use small letters, digits and hyphens, for example tone-1w.' },
  });

/** The name of a channel, as `capture#channel` takes it: `v_in`, `CH1`, `THD+N`. */
export const channelName = z
  .string()
  .meta({ title: 'name of a channel' })
  .refine((text) => /^[\p{L}\p{N}][\p{L}\p{N}_.+-]*$/u.test(text), {
    error: (issue) => `"${String(issue.input)}" cannot be the name of a channel.`,
    params: {
      rule: 'channel-name',
      hint: 'Use letters, digits and _ . + -, beginning with a letter or digit.',
    },
  });

/** A whole number within bounds. */
export function wholeNumber(least: number, most = Number.MAX_SAFE_INTEGER) {
  const bounds = most === Number.MAX_SAFE_INTEGER ? `of at least ${least}` : `from ${least} to ${most}`;
  return numberThat(
    `A whole number ${bounds}`,
    (value) => Number.isInteger(value) && value >= least && value <= most,
  );
}

/** A number above zero. */
export const positiveNumber = () => numberThat('A number above 0', (value) => value > 0);

function numberThat(expected: string, fits: (value: number) => boolean) {
  const kind = expected.replace(/^A /, '');
  return written(expected, kind).transform((text, context) => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (Number.isFinite(value) && fits(value)) return value;
    const message = `${expected} is expected here, but this is "${text}".`;
    context.addIssue({ code: 'custom', message, params: { rule: 'number' } });
    return z.NEVER;
  });
}

/** Free conditions of a capture, name and value as written: `{ level: 1 W, frequency: 1 kHz }`. */
export const conditions = z.record(z.string().trim().min(1), line);

/** Refuses a second entry of a list with the same id. */
export function distinctIds(items: readonly { id: string }[], context: z.RefinementCtx): void {
  for (const [index, { id }] of items.entries()) {
    if (items.findIndex((other) => other.id === id) === index) continue;
    context.addIssue({
      code: 'custom',
      path: [index, 'id'],
      message: `Two entries of this list are called "${id}".`,
      params: { rule: 'duplicate-id', hint: 'Give one of them another id.' },
    });
  }
}

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}
