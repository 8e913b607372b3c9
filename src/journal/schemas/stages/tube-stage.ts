import { z } from 'zod';
import type { TubeStageDescription } from '../../../load/index.ts';
import { quantity } from '../fields.ts';
import { biasOf, biasSchema } from './bias.ts';
import { aimKeys, aimsOf, outputKeys, stageKeys } from './common.ts';
import { deviceKeys, measuredPoint, measuredSchema, smallSignalSchema, typedValues } from './tube-device.ts';

/** A tube with a load at its plate. */
export const tubeStageSchema = z.strictObject({
  ...stageKeys,
  /** `single-ended` (transformer-coupled load) or `resistance-coupled`. */
  topology: z.enum(['single-ended', 'resistance-coupled']),
  ...deviceKeys,
  /** Plate to cathode at rest: `250 V`; left out, it is solved from the supply. */
  plate: quantity('voltage').optional(),
  /** Supply voltage of this stage where it differs from the version's: `300 V`. */
  supply: quantity('voltage').optional(),
  /** How the grid is biased. */
  bias: biasSchema,
  /** Plate resistor, or the primary winding's resistance: `100 kΩ`. */
  plateResistor: quantity('resistance').optional(),
  /** Grid leak of the next stage: `470 kΩ`. */
  nextGridLeak: quantity('resistance').optional(),
  /** Grid leak of the stage itself, held against its rating: `470 kΩ`. */
  gridLeak: quantity('resistance').optional(),
  /** From supply to screen, with a capacitor at the screen: `1 MΩ`; the screen voltage is then solved. */
  screenResistor: quantity('resistance').optional(),
  /** Between plate and next grid leak: `100 nF`. */
  couplingCapacitor: quantity('capacitance').optional(),
  /** Across the cathode resistor: `100 µF`; left out, it counts as large. */
  bypassCapacitor: quantity('capacitance').optional(),
  /** Load at the plate: `2500 Ω`. */
  load: quantity('resistance').optional(),
  ...outputKeys,
  /** Peak grid swing: `45 V`; left out, the largest the stage can take. */
  drive: quantity('voltage').optional(),
  ...aimKeys,
  /** What was measured on this tube at rest, to which its model is multiplied. */
  measured: measuredSchema.optional(),
  /** Values for the gain alone, where no model is known. */
  smallSignal: smallSignalSchema.optional(),
});

/** The stage as the load room takes it. */
export function tubeStageDescription(stage: z.infer<typeof tubeStageSchema>): TubeStageDescription {
  return {
    id: stage.id,
    topology: stage.topology,
    device: stage.device,
    connection: stage.connection,
    tapRatio: stage.tapTurns ?? null,
    count: stage.count,
    measured: stage.measured ? measuredPoint(stage.measured) : null,
    smallSignal: stage.smallSignal ? typedValues(stage.smallSignal) : null,
    plateV: stage.plate ?? null,
    screenV: stage.screen ?? null,
    bias: biasOf(stage.bias),
    plateResistorOhm: stage.plateResistor ?? null,
    nextGridLeakOhm: stage.nextGridLeak ?? null,
    gridLeakOhm: stage.gridLeak ?? null,
    screenResistorOhm: stage.screenResistor ?? null,
    couplingCapacitorF: stage.couplingCapacitor ?? null,
    bypassCapacitorF: stage.bypassCapacitor ?? null,
    loadOhm: stage.load ?? null,
    driveV: stage.drive ?? null,
    supplyV: stage.supply ?? null,
    ...aimsOf(stage),
  };
}
