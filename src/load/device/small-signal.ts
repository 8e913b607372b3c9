import type { Device, Electrodes, SmallSignal, StageGain } from '../types.ts';

/** Half width of a central difference: its own error is a few parts in 10⁸ at the sharpest bend in use. */
const stepFor = (voltage: number) => 1e-4 * Math.max(1, Math.abs(voltage));

/**
 * Transconductance in siemens, plate resistance in ohms and amplification factor at a point, as local
 * derivatives of the plate current (central differences). mu is gm times rp.
 * @source definitions of the small-signal parameters; central difference
 */
export function smallSignal(device: Device, { plateV, screenV, gridV }: Electrodes): SmallSignal {
  const alongGrid = (grid: number) => device.plateCurrent({ plateV, screenV, gridV: grid });
  const alongPlate = (plate: number) => device.plateCurrent({ plateV: plate, screenV, gridV });
  const gmS = slope(alongGrid, gridV);
  const rpOhm = 1 / slope(alongPlate, plateV);
  return Number.isFinite(rpOhm) && rpOhm > 0
    ? { gmS, rpOhm, mu: gmS * rpOhm }
    : { gmS, rpOhm: null, mu: null };
}

/** Slope of a function of a voltage by central difference. */
export function slope(f: (voltage: number) => number, voltage: number): number {
  const step = stepFor(voltage);
  return (f(voltage + step) - f(voltage - step)) / (2 * step);
}

/**
 * Voltage gain mu·RL/(rp + RL), and with an unbypassed cathode resistor mu·RL/(rp + RL + Rk·(mu + 1));
 * the sign (inverting) is left out. A separately fed screen's own current in the resistor is not in it.
 * @source equivalent circuit of a triode stage; worked numbers in shared/checks/load.json
 */
export function voltageGain(of: {
  mu: number;
  rpOhm: number;
  loadOhm: number;
  cathodeOhm?: number | null;
}): StageGain {
  const { mu, rpOhm, loadOhm, cathodeOhm = null } = of;
  const gain = (addedOhm: number) => (mu * loadOhm) / (rpOhm + loadOhm + addedOhm);
  return { bypassed: gain(0), unbypassed: cathodeOhm === null ? null : gain(cathodeOhm * (mu + 1)) };
}
