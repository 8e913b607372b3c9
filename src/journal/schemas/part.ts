import { z } from 'zod';
import { line, positiveNumber, quantity } from './fields.ts';

type QuantityArguments = Parameters<typeof quantity>;

const above = (...dimensions: QuantityArguments) =>
  quantity(...dimensions).refine((value) => value > 0, {
    error: 'A value above zero is expected here.',
    params: { rule: 'value', hint: 'Check the sign and the prefix of the unit.' },
  });

/** The secondary while an inductance was measured, with the reason why the other state is refused. */
const secondary = (wanted: 'open' | 'shorted', error: string, hint: string) =>
  z
    .enum(['open', 'shorted'])
    .refine((state) => state === wanted, { error, params: { rule: 'measuring-condition', hint } });

const tap = z.strictObject({
  /** The load it is made for, or any other name: `8 Ω`. */
  name: line,
  /** Primary turns over the turns of this tap: `25`. */
  turnsRatio: positiveNumber(),
  /** Of the winding up to this tap: `0.4 Ω`. */
  resistance: quantity('resistance').optional(),
});

/** What only a transformer has. */
const transformerKeys = {
  /** `single-ended` (gapped) or `push-pull`; left out, a rated direct current makes it single-ended. */
  use: z.enum(['single-ended', 'push-pull']).optional(),
  /** Nominal impedance of the primary: `5 kΩ`. */
  primary: above('resistance').optional(),
  /** Nominal load of the secondary: `8 Ω`. */
  secondary: above('resistance').optional(),
  /** Primary over secondary turns, in place of the two impedances: `25`. */
  turnsRatio: positiveNumber().optional(),
  /** Taps of the secondary: `[ { name: 8 Ω, turnsRatio: 25 } ]`. */
  taps: z.array(tap).min(1).optional(),
  /** Of the whole primary, to direct current: `190 Ω`. */
  primaryResistance: quantity('resistance').optional(),
  /** Of the secondary where it has no taps: `0.4 Ω`. */
  secondaryResistance: quantity('resistance').optional(),
  /** Share of the primary's turns between supply and screen tap: `43 %`. */
  screenTap: above('ratio').optional(),
  /** How it was measured belongs to it: `{ value: 30 H, level: 10 V, frequency: 50 Hz, secondary: open }`. */
  primaryInductance: z
    .strictObject({
      value: above('inductance'),
      level: above('voltage'),
      frequency: above('frequency'),
      secondary: secondary(
        'open',
        'With the secondary shorted the leakage is measured, not the primary inductance.',
        'Measure the primary with the secondary open, and write secondary: open; or write the value as leakageInductance.',
      ),
    })
    .optional(),
  /** `{ value: 8 mH, frequency: 1 kHz, secondary: shorted }`. */
  leakageInductance: z
    .strictObject({
      value: above('inductance'),
      frequency: above('frequency'),
      secondary: secondary(
        'shorted',
        'With the secondary open the primary inductance is measured, not the leakage.',
        'Measure the primary with the secondary shorted, and write secondary: shorted; or write the value as primaryInductance.',
      ),
    })
    .optional(),
  /** Into the nominal load at the lowest frequency of the rating: `{ value: 10 W, frequency: 30 Hz }`. */
  ratedPower: z.strictObject({ value: above('power'), frequency: above('frequency') }).optional(),
  /** In the primary: `60 mA`. */
  ratedDirectCurrent: above('current').optional(),
};

/** parts/<slug>.md: a thing that an amplifier is made of, or where it comes from. */
export const partSchema = z
  .strictObject({
    /** `Output transformer 2.5 kΩ`. */
    title: line,
    /** `transformer`, `tube`, `device`, `supplier` or `other`. */
    kind: z.enum(['transformer', 'tube', 'device', 'supplier', 'other']),
    /** As the maker pays it: `85.00 EUR`. */
    price: line.optional(),
    /** `six weeks`. */
    delivery: line.optional(),
    /** As the maker writes it: `wound to order`. */
    supplier: line.optional(),
    /** `in hand`, `ordered`, `to be wound` or `to be borrowed`. */
    state: z.enum(['in hand', 'ordered', 'to be wound', 'to be borrowed']).optional(),
    ...transformerKeys,
  })
  .superRefine((part, context) => {
    const fault = part.kind === 'transformer' ? turnsFault(part) : strangeKey(part);
    if (fault) context.addIssue({ code: 'custom', ...fault });
  });

export type PartData = z.infer<typeof partSchema>;

type Part = Partial<PartData>;

function strangeKey(part: Part) {
  const key = Object.keys(transformerKeys).find((one) => one in part);
  if (key === undefined) return null;
  const message = `Only a transformer has ${key}, but this part is of kind ${part.kind}.`;
  return {
    path: [key],
    message,
    params: { rule: 'part-kind', hint: 'Write kind: transformer, or leave it out.' },
  };
}

/** Turns are given in exactly one way. */
function turnsFault({ primary, secondary: load, turnsRatio, taps, secondaryResistance }: Part) {
  const fault = (path: string, message: string, hint: string) => ({
    path: [path],
    message,
    params: { rule: 'turns-ratio', hint },
  });
  const impedances = primary !== undefined && load !== undefined;
  const ways = [impedances, turnsRatio !== undefined, taps !== undefined].filter(Boolean).length;
  if (taps !== undefined && secondaryResistance !== undefined) {
    return fault(
      'secondaryResistance',
      'A secondary with taps has a resistance for each of them.',
      'Write resistance: at each tap.',
    );
  }
  return ways === 1
    ? null
    : fault(
        'kind',
        'The turns of a transformer are given in exactly one way: primary and secondary, turnsRatio, or taps.',
        'Write for example primary: 5 kΩ and secondary: 8 Ω.',
      );
}
