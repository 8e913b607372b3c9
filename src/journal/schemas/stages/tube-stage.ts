import { z } from 'zod';
import type { TubeStageDescription } from '../../../load/index.ts';
import { line, quantity } from '../fields.ts';
import { biasOf, biasSchema } from './bias.ts';
import { stageKeys } from './common.ts';

/** A tube with a load at its plate. */
export const tubeStageSchema = z.strictObject({
  ...stageKeys,
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
  bias: biasSchema,
  /** Plate resistor, or the primary winding's resistance: `100 kΩ`. */
  plateResistor: quantity('resistance').optional(),
  /** Grid leak of the next stage: `470 kΩ`. */
  nextGridLeak: quantity('resistance').optional(),
  /** Load at the plate: `2500 Ω`. */
  load: quantity('resistance').optional(),
  /** Peak grid swing: `45 V`; left out, the largest the stage can take. */
  drive: quantity('voltage').optional(),
});

/** The stage as the load room takes it. */
export function tubeStageDescription(stage: z.infer<typeof tubeStageSchema>): TubeStageDescription {
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
