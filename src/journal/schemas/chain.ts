import { z } from 'zod';
import type { ChainDescription } from '../../load/index.ts';
import { line, positiveNumber, quantity } from './fields.ts';

const inDecibels = line.refine((text) => /\d\s*dB$/.test(text), {
  error: (issue) => `"${String(issue.input)}" is not a value in dB.`,
  params: {
    rule: 'feedback',
    hint: 'Write by how much the feedback lowers the gain, for example feedback: 6 dB.',
  },
});
const decibels = inDecibels.transform((text): string | number => text).pipe(quantity('level'));

/** From the source to the speaker; the stages are those of the record, in their order. */
export const chainSchema = z.strictObject({
  /** What plays into the amplifier. */
  source: z.strictObject({
    /** Without load, rms: `2 V`. */
    level: quantity('voltage'),
    /** `100 Ω`. */
    impedance: quantity('resistance').default(0),
  }),
  /** Of the amplifier, at the first stage: `100 kΩ`; left out, it does not load the source. */
  inputResistance: quantity('resistance').optional(),
  /** Around all stages: `6 dB`; left out, none. */
  feedback: decibels.optional(),
  /** What the last stage plays into: `8 Ω`; left out, the version's rated load. */
  speaker: quantity('resistance').optional(),
  /** Of the output transformer, primary over secondary: `20`; left out, as load and speaker need it. */
  turnsRatio: positiveNumber().optional(),
});

export type ChainData = z.infer<typeof chainSchema>;

/** The chain as the load room takes it; the speaker's impedance is the rated load where none is stated. */
export function chainDescription(chain: ChainData, ratedLoadOhm: number | null): ChainDescription {
  return {
    sourceV: chain.source.level,
    sourceOhm: chain.source.impedance,
    inputOhm: chain.inputResistance ?? null,
    feedbackDb: chain.feedback ?? 0,
    speakerOhm: chain.speaker ?? ratedLoadOhm,
    turnsRatio: chain.turnsRatio ?? null,
  };
}
