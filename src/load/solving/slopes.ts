import { slope } from '../device/small-signal.ts';
import type { Electrodes } from '../types.ts';

/** Slope of a current with the plate's voltage, and with all voltages to the cathode together. */
export interface CurrentSlopes {
  perPlate: number;
  perRise: number;
}

/** The slopes of an electrode's current at a point, as the search for a steady state needs them. */
export function slopesOf(
  current: (at: Electrodes) => number,
  { plateV, screenV, gridV }: Electrodes,
): CurrentSlopes {
  const at = { plateV, screenV, gridV };
  return {
    perPlate: slope((volts) => current({ ...at, plateV: volts }), plateV),
    perRise: slope(
      (rise) => current({ plateV: plateV + rise, screenV: screenV + rise, gridV: gridV + rise }),
      0,
    ),
  };
}
