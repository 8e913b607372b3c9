import { z } from 'zod';
import { date, distinctIds, line, quantity, slug } from './fields.ts';

const alternative = z.strictObject({
  /** `old-driver`. */
  id: slug,
  /** `12AX7 driver`. */
  title: line,
  /** `amplifiers/heron/v1`. */
  version: line.optional(),
  /** A frequency sweep with distortion, which its bands are taken from: `logs/2026-03-14-sweeps/heron-v1#load`. */
  capture: line.optional(),
});

function aboveZero(dimension: 'level' | 'voltage', hint: string) {
  return quantity(dimension).refine((value) => value > 0, {
    error: 'A value above zero is expected here.',
    params: { rule: 'value', hint },
  });
}

const passage = z.strictObject({
  /** `piano`. */
  id: slug,
  /** `Solo piano, second movement, first minute`. */
  title: line,
  /** `whether single low notes keep their pitch`. */
  listenFor: line.optional(),
});

/** One reading of each alternative. */
const readings = (value: ReturnType<typeof quantity>) =>
  z.array(z.strictObject({ of: line, value })).length(2);

const common = {
  /** What was played for it: `1 kHz`, `pink noise`. */
  signal: line,
  /** The largest difference aimed at: `0.1 dB`. */
  target: aboveZero('level', 'Write for example 0.1 dB.'),
};

const levelMatching = z.discriminatedUnion('by', [
  z.strictObject({
    /** `voltage` at the speaker terminals. */
    by: z.literal('voltage'),
    ...common,
    /** `[ { of: old-driver, value: 2.830 V }, { of: new-driver, value: 2.834 V } ]`. */
    readings: readings(aboveZero('voltage', 'Write the voltage as the meter shows it, for example 2.83 V.')),
  }),
  z.strictObject({
    /** `meter` for a sound level meter. */
    by: z.literal('meter'),
    ...common,
    /** `[ { of: old-driver, value: 84.2 dB }, { of: new-driver, value: 84.0 dB } ]`. */
    readings: readings(quantity('level')),
  }),
]);

const share = (least: number, most: number, hint: string) =>
  quantity('ratio').refine((value) => value >= least && value <= most, {
    error: `A share from ${Math.round(100 * least)} % to ${Math.round(100 * most)} % is expected here.`,
    params: { rule: 'value', hint },
  });

const trial = z.strictObject({
  /** Id of the unknown alternative; in a preference test of the one played first: `old-driver`. */
  played: line,
  /** Id of what it was taken for, or of the preferred one: `new-driver`. */
  answer: line,
  /** Id of a passage: `piano`. */
  passage: line.optional(),
});

const note = z.strictObject({
  /** Edges of the band that it is about: `[ 20 Hz, 100 Hz ]`. */
  band: z
    .tuple([quantity('frequency'), quantity('frequency')])
    .refine(([low, high]) => low > 0 && low < high, {
      error: 'The band does not begin below its end.',
      params: { rule: 'value', hint: 'Write the lower frequency first.' },
    })
    .optional(),
  /** Id of an alternative: `new-driver`. */
  of: line.optional(),
  /** Id of a passage: `piano`. */
  passage: line.optional(),
  /** `the lowest notes have less outline`. */
  heard: line,
});

const session = z.strictObject({
  /** `Slate at two idle currents, blind`. */
  title: line,
  /** The day of the session: `2026-07-25`. */
  date,
  /** `amplifiers/slate`. */
  amplifier: line,
  /** The decision that it belongs to: `decisions/0002-idle-current-of-slate`. */
  decision: line.optional(),
  /** The comparison that has the same alternatives under the same ids: `comparisons/slate-idle-current`. */
  comparison: line.optional(),
  /** What was asked, one sentence. */
  question: line,
  /** The short answer; left out while there is none. */
  answer: line.optional(),
  /** What played and through what: `file player into the line input, two-way loudspeaker at 2 m`. */
  source: line,
  /** `blind` where nobody who could be noticed knew what was playing, `sighted` otherwise. */
  listening: z.enum(['blind', 'sighted']),
  /** Asked in each trial. `discrimination`: which of the two is playing? `preference`: which is preferred? */
  task: z.enum(['discrimination', 'preference']).default('discrimination'),
  /** The two that were listened to. */
  alternatives: z.array(alternative).length(2).superRefine(distinctIds),
  /** What was played. */
  programme: z.array(passage).superRefine(distinctIds).default([]),
  /** How the two were made equally loud, and what was read. */
  levelMatching: levelMatching.optional(),
  /** The number of trials that was fixed beforehand: `16`. */
  plannedTrials: z.int().min(1).max(2000).optional(),
  /** What the session should find, and how surely: `{ share: 75 %, power: 80 % }`. */
  aim: z
    .strictObject({
      share: share(0.55, 1, 'Half of the answers are right by guessing; write for example 75 %.'),
      power: share(0.05, 0.999, 'Write for example 80 %.'),
    })
    .optional(),
  /** SHA-256 of the key file, as `new listening` wrote it. */
  keySha256: z
    .string()
    .refine((text) => /^[0-9a-f]{64}$/.test(text), {
      error: 'A SHA-256 has 64 of the characters 0 to 9 and a to f.',
      params: { rule: 'listening-key', hint: 'Copy it from the last line of the trial sheet.' },
    })
    .optional(),
  /** What was played and answered, trial by trial. */
  trials: z.array(trial).max(2000).default([]),
  /** What was heard, by band where that can be said. */
  notes: z.array(note).default([]),
});

/** listening/<date>-<slug>.md: two alternatives that were listened to. */
export const listeningSchema = session.superRefine((data, context) => {
  for (const { path, message, hint } of [...unknownNames(data), ...doubleReading(data)]) {
    context.addIssue({ code: 'custom', path, message, params: { rule: 'listening', hint } });
  }
});

export type ListeningData = z.infer<typeof session>;

interface Refusal {
  path: (string | number)[];
  message: string;
  hint: string;
}

/** Alternatives and passages that are named and not listed. */
function unknownNames({
  alternatives,
  programme,
  trials,
  notes,
  levelMatching: levels,
}: ListeningData): Refusal[] {
  const check = (kind: string, ids: string[]) => (name: string | undefined, path: Refusal['path']) => {
    if (name === undefined || ids.includes(name)) return [];
    const hint = ids.length > 0 ? `There are: ${ids.join(', ')}.` : 'List it under programme:.';
    return [{ path, message: `There is no ${kind} "${name}" in this session.`, hint }];
  };
  const ofAlternative = check(
    'alternative',
    alternatives.map(({ id }) => id),
  );
  const ofPassage = check(
    'passage',
    programme.map(({ id }) => id),
  );
  return [
    ...trials.flatMap(({ played, answer, passage }, index) => [
      ...ofAlternative(played, ['trials', index, 'played']),
      ...ofAlternative(answer, ['trials', index, 'answer']),
      ...ofPassage(passage, ['trials', index, 'passage']),
    ]),
    ...notes.flatMap(({ of, passage }, index) => [
      ...ofAlternative(of, ['notes', index, 'of']),
      ...ofPassage(passage, ['notes', index, 'passage']),
    ]),
    ...(levels?.readings ?? []).flatMap(({ of }, index) =>
      ofAlternative(of, ['levelMatching', 'readings', index, 'of']),
    ),
  ];
}

/** Two readings of one alternative leave none for the other. */
function doubleReading({ levelMatching: levels }: ListeningData): Refusal[] {
  const [first, second] = levels?.readings ?? [];
  if (!first || first.of !== second?.of) return [];
  return [
    {
      path: ['levelMatching', 'readings', 1, 'of'],
      message: `Both readings are of "${first.of}".`,
      hint: 'Give one reading of each alternative, by the same meter.',
    },
  ];
}
