import { z } from 'zod';
import { type Dimension, parseQuantity } from '../../quantity/index.ts';
import { line } from './fields.ts';

const dimensions: readonly Dimension[] = [
  ...(['ratio', 'level', 'power', 'voltage', 'current', 'resistance', 'frequency'] as const),
  ...(['inductance', 'capacitance', 'angle', 'temperature', 'time', 'energy'] as const),
];

/** A quantity of any of the dimensions that figures have, in SI with its unit, and as it was written. */
export const writtenQuantity = line.transform((text, context) => {
  const readings = dimensions.map((dimension) => parseQuantity(text, dimension));
  const found = readings.find((reading) => 'quantity' in reading && !isReferred(reading.quantity));
  if (found && 'quantity' in found) {
    return { value: found.quantity.value, unit: unitOf(found.quantity), text };
  }
  context.addIssue({
    code: 'custom',
    message: `"${text}" is not a value with a unit that figures have.`,
    params: { rule: 'quantity', hint: 'Write a number and a unit, for example 10 dB, 20 % or 2 W.' },
  });
  return z.NEVER;
});

/** A quantity of any of the dimensions that figures have, in SI with its unit: `1 %`, `10 dB`, `3 W`. */
export const anyQuantity = writtenQuantity.transform(({ value, unit }) => ({ value, unit }));

/** Levels re something, such as 3 dBV, are no plain differences. */
const isReferred = ({ dimension, text }: { dimension: Dimension; text: string }) =>
  dimension === 'level' && !/dB$/.test(text);

const unitOf = ({ unit, dimension }: { unit: string; dimension: Dimension }) =>
  dimension === 'level' ? 'dB' : dimension === 'angle' ? '°' : unit;
