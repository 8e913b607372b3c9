import { mainsHigh } from '../supply/supply.ts';
import type { StageDescription, SupplyDescription } from '../types.ts';

/** A higher voltage is a fault of its description. */
const highestV = 20e3;

/**
 * The voltage that the plate of a transformer-coupled stage can reach at full drive, on the cautious side: the
 * transformer returns as much above the supply as the tube pulls below it, so near twice the supply, taken with the
 * mains 10 % high. The swing that the model gives into the stated load is smaller.
 *
 * @source geometry of the load line: swing from near zero volts about a point of rest at the supply voltage
 */
export function peakPlateVoltage(
  stages: readonly StageDescription[],
  supply: SupplyDescription | null,
): number | null {
  const rests = stages
    .flatMap((stage) =>
      stage.topology === 'single-ended' || stage.topology === 'push-pull'
        ? (stage.supplyV ?? supply?.plateV ?? stage.plateV ?? [])
        : [],
    )
    .filter((volts) => volts > 0 && volts <= highestV);
  return rests.length === 0 ? null : 2 * mainsHigh * Math.max(...rests);
}
