import { z } from 'zod';
import type { MeasuredPoint, TypedSmallSignal } from '../../../load/index.ts';
import { line, positiveNumber, quantity, wholeNumber } from '../fields.ts';

/** Which tube a stage has and how it is connected. */
export const deviceKeys = {
  /** A tube type known to the project: `2A3`; with `curves` any type, looked up for its ratings. */
  device: line,
  /** `triode`, `pentode` or `distributed-load`. */
  connection: z.enum(['triode', 'pentode', 'distributed-load']),
  /** Share of the primary's turns between supply and screen tap, in distributed load: `43 %`. */
  tapTurns: quantity('ratio').optional(),
  /** Tubes in parallel: `2`; left out, one. */
  count: wholeNumber(1, 16).default(1),
  /** Screen to cathode: `250 V`; left out in distributed load, as the plate. */
  screen: quantity('voltage').optional(),
  /** Traced plate curves in place of a model, a file beside the record: `heron-output-curves.csv`. */
  curves: line.optional(),
};

/** What was measured at rest, each tube on its own. */
export const measuredSchema = z.strictObject({
  /** `62 mA`. */
  plateCurrent: quantity('current'),
  /** Cathode above the return of the grid: `61.3 V`; left out, from the cathode resistor or the bias. */
  cathodeVoltage: quantity('voltage').optional(),
  /** Plate to cathode: `298 V`; left out, that of the model at rest. */
  plateVoltage: quantity('voltage').optional(),
  /** Whether all figures are to be those of the model times measured over modelled current: `true`. */
  rescale: z.boolean().default(false),
});

/** Values typed in place of a model: two of the three, or all. */
export const smallSignalSchema = z.strictObject({
  /** Amplification factor: `20`. */
  mu: positiveNumber().optional(),
  /** `7.7 kΩ`. */
  plateResistance: quantity('resistance').optional(),
  /** `2.6 mS`. */
  transconductance: quantity('transconductance').optional(),
});

/** The measured point as the load room takes it. */
export function measuredPoint(data: z.infer<typeof measuredSchema>): MeasuredPoint {
  return {
    plateA: data.plateCurrent,
    cathodeV: data.cathodeVoltage ?? null,
    plateV: data.plateVoltage ?? null,
    rescale: data.rescale,
  };
}

/** Typed values as the load room takes them. */
export function typedValues(data: z.infer<typeof smallSignalSchema>): TypedSmallSignal {
  return {
    mu: data.mu ?? null,
    plateResistanceOhm: data.plateResistance ?? null,
    transconductanceS: data.transconductance ?? null,
  };
}
