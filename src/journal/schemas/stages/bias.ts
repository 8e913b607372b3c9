import { z } from 'zod';
import type { Bias } from '../../../load/index.ts';
import { quantity } from '../fields.ts';

const biasKeys = ['grid', 'cathodeResistor', 'current'] as const;

/** How a stage is biased: exactly one of grid, cathodeResistor and current. */
export const biasSchema = z
  .strictObject({
    /** Fixed grid voltage: `-61 V`. */
    grid: quantity('voltage').optional(),
    /** Cathode resistor: `750 Ω`. */
    cathodeResistor: quantity('resistance').optional(),
    /** Whether a capacitor bypasses the cathode resistor: `true` (default). */
    bypassed: z.boolean().default(true),
    /** Plate current held by other means: `60 mA`. */
    current: quantity('current').optional(),
  })
  .refine((value) => biasKeys.filter((key) => value[key] !== undefined).length === 1, {
    error: 'A bias is given by exactly one of grid, cathodeResistor and current.',
    params: { rule: 'bias', hint: 'Write for example bias: { cathodeResistor: 750 Ω, bypassed: true }.' },
  });

/** The bias as the load room takes it. */
export function biasOf(data: z.infer<typeof biasSchema>): Bias {
  if (data.cathodeResistor !== undefined) {
    return { kind: 'cathode-resistor', ohm: data.cathodeResistor, bypassed: data.bypassed };
  }
  return data.current === undefined
    ? { kind: 'grid', gridV: data.grid ?? 0 }
    : { kind: 'current', plateA: data.current };
}
