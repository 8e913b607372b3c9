import { z } from 'zod';
import type { Bias, StageDescription } from '../../load/index.ts';
import { distinctIds, line, quantity, slug } from './fields.ts';

const biasKeys = ['grid', 'cathodeResistor', 'current'] as const;

/** How a stage is biased: exactly one of grid, cathodeResistor and current. */
const bias = z
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

/** One tube stage, in a version record or in a stand-alone file. */
const stageSchema = z.strictObject({
  /** Short name: `output`. */
  id: slug,
  /** Heading on the page: `Output stage`. */
  title: line.optional(),
  /** `single-ended` (transformer-coupled load) or `resistance-coupled`. */
  topology: z.enum(['single-ended', 'resistance-coupled']),
  /** A tube type known to the project: `2A3`. */
  device: line,
  /** `triode` or `pentode`. */
  connection: z.enum(['triode', 'pentode']),
  /** Plate to cathode at rest: `250 V`; left out, it is solved from the supply. */
  plate: quantity('voltage').optional(),
  /** Supply voltage of this stage where it differs from the version's: `300 V`. */
  supply: quantity('voltage').optional(),
  /** Screen to cathode: `250 V`. */
  screen: quantity('voltage').optional(),
  bias,
  /** Plate resistor, or the primary winding's resistance: `100 kΩ`. */
  plateResistor: quantity('resistance').optional(),
  /** Grid leak of the next stage: `470 kΩ`. */
  nextGridLeak: quantity('resistance').optional(),
  /** Load at the plate: `2500 Ω`. */
  load: quantity('resistance').optional(),
  /** Peak grid swing: `45 V`; left out, the largest the stage can take. */
  drive: quantity('voltage').optional(),
});

/** The stages of an amplifier, each with an id of its own. */
export const stagesSchema = z.array(stageSchema).superRefine(distinctIds).default([]);

export type StageData = z.infer<typeof stageSchema>;

/** The stage as the load room takes it. */
export function stageDescription(stage: StageData): StageDescription {
  return {
    id: stage.id,
    topology: stage.topology,
    device: stage.device,
    connection: stage.connection,
    plateV: stage.plate ?? null,
    screenV: stage.screen ?? null,
    bias: biasOf(stage.bias),
    plateResistorOhm: stage.plateResistor ?? null,
    nextGridLeakOhm: stage.nextGridLeak ?? null,
    loadOhm: stage.load ?? null,
    driveV: stage.drive ?? null,
    supplyV: stage.supply ?? null,
  };
}

function biasOf(data: StageData['bias']): Bias {
  if (data.cathodeResistor !== undefined) {
    return { kind: 'cathode-resistor', ohm: data.cathodeResistor, bypassed: data.bypassed };
  }
  return data.current === undefined
    ? { kind: 'grid', gridV: data.grid ?? 0 }
    : { kind: 'current', plateA: data.current };
}
