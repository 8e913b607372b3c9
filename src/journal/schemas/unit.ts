import { z } from 'zod';
import { writtenQuantity } from './any-quantity.ts';
import { date, line } from './fields.ts';
import { boundKeys, boundsFault, readingKey } from './limit.ts';

const reading = z.strictObject({
  /** What was read, named as in the version's limits: `Cathode voltage`. */
  reading: line,
  /** As the meter showed it: `13.4 V`. */
  value: writtenQuantity,
  /** When, where that is not the date of the record: `2026-10-03`. */
  date: date.optional(),
  /** What was done because of it, before it was read again: `cathode resistor changed to 180 Ω`. */
  done: line.optional(),
  /** Bounds for this unit alone, in place of the version's. */
  ...boundKeys,
});

/** amplifiers/<amp>/units/<name>.md: one built unit of a version, with what was read on it. */
export const unitSchema = z
  .strictObject({
    /** Serial number as it stands on the unit: `W2-03`. */
    serial: line,
    /** The version that it is built to: `amplifiers/wren/v2`. */
    version: line,
    /** When it was read: `2026-10-02`. */
    date,
    /** In the order of reading; of one name, the last counts. */
    readings: z.array(reading).max(200).default([]),
    /** Captures taken of it, or logs all of whose captures are: `[ logs/2026-10-02-a-batch/w2-03 ]`. */
    captures: z.array(line).max(200).default([]),
  })
  .superRefine(({ readings }, context) => {
    for (const [index, { reading: name, least, most }] of readings.entries()) {
      const refuse = (key: string, message: string, hint: string) =>
        context.addIssue({
          ...{ code: 'custom', path: ['readings', index, key], message },
          params: { rule: 'reading', hint },
        });
      const bounds = boundsFault({ least, most });
      if (bounds) refuse('most', bounds.message, bounds.hint);
      const before = readings.slice(0, index).findLast((one) => readingKey(one.reading) === readingKey(name));
      if (!before || before.done !== undefined) continue;
      refuse(
        'reading',
        `"${name}" is read again, and the reading before it does not say what was done in between.`,
        'Add done: to the earlier reading, or remove one of the two.',
      );
    }
  });

export type UnitData = z.infer<typeof unitSchema>;
