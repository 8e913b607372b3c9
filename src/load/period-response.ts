import type { LoadLine } from './load-line.ts';
import { slope } from './small-signal.ts';
import type { Instant, RestingStage } from './types.ts';

/** How the plate current of an instant follows a voltage added at the plate, and the average current. */
interface InstantResponse {
  perVolt: number;
  perAverage: number;
}

/**
 * Derivatives of the plate current along the load line of a stage. A separate screen's current in an unbypassed
 * cathode resistor is left out: they are the slopes of a search, not figures.
 */
export function responseOf(
  { device, feedOhm, cathode }: RestingStage,
  { loadOhm }: LoadLine,
  { plateV, screenV, gridV }: Instant,
): InstantResponse {
  const perPlate = slope((volts) => device.plateCurrent({ plateV: volts, screenV, gridV }), plateV);
  const alongCathode = cathode
    ? slope(
        (rise) =>
          device.plateCurrent({ plateV: plateV + rise, screenV: screenV + rise, gridV: gridV + rise }),
        0,
      )
    : 0;
  const steadyOhm = cathode?.bypassed ? cathode.ohm : 0;
  const followingOhm = cathode && !cathode.bypassed ? cathode.ohm : 0;
  const held = 1 + perPlate * loadOhm + alongCathode * followingOhm;
  return {
    perVolt: perPlate / held,
    perAverage: (perPlate * (loadOhm - feedOhm) - alongCathode * steadyOhm) / held,
  };
}
