import { z } from 'zod';
import { date, distinctIds, line, quantity, slug } from './fields.ts';

const alternative = z.strictObject({
  /** `old-driver`. */
  id: slug,
  /** `12AX7 driver`. */
  title: line,
  /** `amplifiers/heron/v1`. */
  version: line.optional(),
  /** The part that makes the difference, for price, delivery and availability: `parts/heron-output`. */
  part: line.optional(),
  /** What was measured of it, with the channel where a capture has several: `[logs/first-sound/sweep-1w#load]`. */
  captures: z.array(line).min(1).max(50),
});

const frequency = quantity('frequency').refine((hertz) => hertz > 0, {
  error: 'A frequency above zero is expected here.',
  params: { rule: 'number' },
});

const edges = z.tuple([frequency, frequency]).refine(([low, high]) => low < high, {
  error: 'The band does not begin below its end.',
  params: { rule: 'value', hint: 'Write the lower frequency first.' },
});

const weight = z
  .union([z.string(), z.number()], { error: 'A number is expected' })
  .transform((text, context) => {
    const value = Number(text);
    if (Number.isFinite(value) && value >= 0 && String(text).trim() !== '') return value;
    const message = `A weight is a number from 0 up, but this is "${text}".`;
    context.addIssue({ code: 'custom', message, params: { rule: 'number' } });
    return z.NEVER;
  });

const stated = z.strictObject({
  /** Id of an alternative. */
  of: line,
  /** `0.55 kg`. */
  is: line,
  /** The record that says so: `parts/heron-output`. */
  from: line,
});

const criterion = z.strictObject({
  /** `Second harmonic at 1 kHz`. */
  title: line,
  /** How much it counts for the maker; only its share of all weights matters: `3`. */
  weight,
  /** Id of a figure of the alternatives’ captures: `harmonic-2-at-1khz`. */
  figure: line.optional(),
  /** The mean of the figure over a band of a frequency sweep: `[ 25 Hz, 80 Hz ]`. */
  over: edges.optional(),
  /** Which figure is wanted where that is not commonly agreed, or which of the stated amounts: `lower` or `higher`. */
  better: z.enum(['lower', 'higher']).optional(),
  /** A listening session of this comparison: `listening/2026-07-25-slate-idle-current`. */
  session: line.optional(),
  /** What is read from the part of each alternative: `price`, `delivery` or `state`. */
  part: z.enum(['price', 'delivery', 'state']).optional(),
  /** What the maker states of each alternative, with where it is on record. */
  stated: z.array(stated).min(1).optional(),
  /** Id of the alternative that is better by it, where that is for the maker to say. */
  prefers: line.optional(),
});

type Criterion = z.infer<typeof criterion>;

const kinds = ['figure', 'session', 'part', 'stated'] as const;

const soundCriterion = criterion.superRefine((value, context) => {
  for (const { path, message, hint } of faultsOf(value)) {
    context.addIssue({ code: 'custom', path: [path], message, params: { rule: 'criterion', hint } });
  }
});

function faultsOf(value: Criterion): { path: string; message: string; hint: string }[] {
  const given = kinds.filter((kind) => value[kind] !== undefined);
  const byMaker = value.part !== undefined || value.stated !== undefined;
  const rules: [boolean, { path: string; message: string; hint: string }][] = [
    [
      given.length !== 1,
      {
        path: given[1] ?? 'title',
        message: 'A criterion rests on exactly one of figure:, session:, part: and stated:.',
        hint: 'Write one criterion for each.',
      },
    ],
    [
      value.over !== undefined && value.figure === undefined,
      { path: 'over', message: 'Only a figure has a mean over a band.', hint: 'Remove over:.' },
    ],
    [
      value.better !== undefined && (value.session !== undefined || value.prefers !== undefined),
      {
        path: 'better',
        message: 'Only figures and stated amounts are better lower or higher, and only without prefers:.',
        hint: 'Remove better:.',
      },
    ],
    [
      value.prefers !== undefined && !byMaker,
      {
        path: 'prefers',
        message: 'Figures and listening sessions say themselves which alternative is better.',
        hint: 'Remove prefers:.',
      },
    ],
  ];
  return rules.flatMap(([isBroken, fault]) => (isBroken ? [fault] : []));
}

const standardBands = [
  { name: 'bass', band: [20, 200] as [number, number] },
  { name: 'middle', band: [200, 2000] as [number, number] },
  { name: 'treble', band: [2000, 20_000] as [number, number] },
];

/** comparisons/<slug>.md: alternatives side by side. */
export const comparisonSchema = z
  .strictObject({
    /** `Heron with either driver`. */
    title: line,
    /** The day on which it was drawn up: `2026-04-02`. */
    date,
    /** `amplifiers/heron`. */
    amplifier: line,
    /** The decision that it belongs to: `decisions/0001-driver-of-heron`. */
    decision: line.optional(),
    /** What was asked, one sentence. */
    question: line,
    /** The short answer; left out while there is none. */
    answer: line.optional(),
    /** What is set side by side, two to four. */
    alternatives: z.array(alternative).min(2).max(4).superRefine(distinctIds),
    /** What captures must share: `level`, `load`, `frequency`, `date`, `instrument`, or any condition by its name. */
    mustMatch: z.array(line).default(['level', 'load', 'frequency']),
    /** Bands for means, lowest first: `[ { name: bass, band: [ 20 Hz, 200 Hz ] } ]`. */
    bands: z
      .array(z.strictObject({ name: line, band: edges }))
      .min(1)
      .max(12)
      .default(standardBands),
    /** What the choice is made by. */
    criteria: z.array(soundCriterion).max(20).default([]),
  })
  .superRefine(({ alternatives, criteria }, context) => {
    const ids = alternatives.map(({ id }) => id);
    for (const [index, { stated: cells, prefers }] of criteria.entries()) {
      const named = [
        { name: prefers, path: ['criteria', index, 'prefers'] },
        ...(cells ?? []).map(({ of }, i) => ({ name: of, path: ['criteria', index, 'stated', i, 'of'] })),
      ];
      for (const { name, path } of named) {
        if (name === undefined || ids.includes(name)) continue;
        const message = `There is no alternative "${name}" in this comparison.`;
        const hint = `There are: ${ids.join(', ')}.`;
        context.addIssue({ code: 'custom', path, message, params: { rule: 'criterion', hint } });
      }
    }
  });

export type ComparisonData = z.infer<typeof comparisonSchema>;
