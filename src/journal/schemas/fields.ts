import { z } from 'zod';
import { type Dimension, parseQuantity } from '../../quantity/index.ts';

/** A quantity with its unit, read into SI: `5 kΩ`, `48 mA`. With several dimensions the first that fits wins. */
export function quantity(...dimensions: [Dimension, ...Dimension[]]) {
  return z.union([z.string(), z.number()]).transform((written, context) => {
    const readings = dimensions.map((dimension) => parseQuantity(String(written), dimension));
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
export const date = z.string().refine(isDate, {
  error: (issue) => `"${String(issue.input)}" is not a date.`,
  params: { rule: 'date', hint: 'Write year, month and day, for example 2026-02-07.' },
});

/** A line of text that is not empty. */
export const line = z.string().trim().min(1);

/** A short name that can stand in an address: `tone-1w`. */
export const slug = z.string().regex(/^[a-z0-9][a-z0-9-]*$/, {
  error: (issue) => `"${String(issue.input)}" cannot stand in an address.`,
});

/** The name of a channel, as `capture#channel` takes it: `v_in`, `CH1`, `THD+N`. */
export const channelName = z.string().regex(/^[\p{L}\p{N}][\p{L}\p{N}_.+-]*$/u, {
  error: (issue) =>
    `"${String(issue.input)}" cannot be the name of a channel: letters, digits and _ . + - can.`,
});

/** Free conditions of a capture, name and value as written: `{ level: 1 W, frequency: 1 kHz }`. */
export const conditions = z.record(line, z.union([line, z.number()]).transform(String));

function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const time = Date.parse(`${text}T00:00:00Z`);
  return !Number.isNaN(time) && new Date(time).toISOString().startsWith(text);
}
