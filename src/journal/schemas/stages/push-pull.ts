import { z } from 'zod';
import type { PushPullDescription } from '../../../load/index.ts';
import { quantity } from '../fields.ts';
import { biasOf, biasSchema } from './bias.ts';
import { aimKeys, outputKeys, stageKeys } from './common.ts';
import { deviceKeys } from './tube-device.ts';

/** Two like sides on a centre-tapped transformer; `count` is that of each side. */
export const pushPullSchema = z.strictObject({
  ...stageKeys,
  /** `push-pull`; class A, AB or B comes out of bias and drive. */
  topology: z.literal('push-pull'),
  ...deviceKeys,
  /** Plate to cathode at rest: `400 V`; left out, it is solved from the supply. */
  plate: quantity('voltage').optional(),
  /** Supply voltage of this stage where it differs from the version's: `430 V`. */
  supply: quantity('voltage').optional(),
  /** A cathode resistor is common to all tubes of the stage, a current that of each tube. */
  /** How the grids are biased. */
  bias: biasSchema,
  /** Direct-current resistance of each half of the primary: `80 Ω`. */
  windingResistance: quantity('resistance').optional(),
  /** Load from plate to plate: `6.6 kΩ`. */
  load: quantity('resistance').optional(),
  ...outputKeys,
  /** Peak swing of each grid: `30 V`; left out, up to 0 V at the grid or saturation. */
  drive: quantity('voltage').optional(),
  ...aimKeys,
  /** By how much of their mean the currents of the two sides differ: `10 %`. */
  mismatch: quantity('ratio').optional(),
});

/** The pair as the load room takes it. */
export function pushPullDescription(stage: z.infer<typeof pushPullSchema>): PushPullDescription {
  return {
    id: stage.id,
    topology: stage.topology,
    device: stage.device,
    connection: stage.connection,
    tapRatio: stage.tapTurns ?? null,
    count: stage.count,
    plateV: stage.plate ?? null,
    supplyV: stage.supply ?? null,
    screenV: stage.screen ?? null,
    bias: biasOf(stage.bias),
    windingOhm: stage.windingResistance ?? null,
    loadOhm: stage.load ?? null,
    driveV: stage.drive ?? null,
    powerW: stage.statedPower ?? null,
    statedDistortionRatio: stage.statedDistortion ?? null,
    mismatchRatio: stage.mismatch ?? 0,
  };
}
