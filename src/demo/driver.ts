import { type Complex, complex, over, times } from './complex.ts';
import { zeroOfFalling } from './solve.ts';
import { filtered, shaped, type Tone } from './tone.ts';
import { plateConductance, type RestingPoint, spaceCurrent, type TubeLaw, triodeAtRest } from './tubes.ts';

/** A resistance-coupled triode whose cathode resistor is bypassed, and what hangs on its plate. */
export interface Driver {
  tube: TubeLaw;
  supplyV: number;
  plateOhm: number;
  cathodeOhm: number;
  couplingF: number;
  /** Grid leak of the stage that follows. */
  leakOhm: number;
  /** Input capacitance of the stage that follows. */
  inputF: number;
}

/** Voltage at the next grid for a voltage at the driver's grid. */
export function driven(driver: Driver, input: Tone): Tone {
  const rest = triodeAtRest(driver.tube, driver.supplyV, driver.plateOhm, driver.cathodeOhm);
  const loadOhm = 1 / (1 / driver.plateOhm + 1 / driver.leakOhm);
  const plate = shaped(input, (gridV) => plateSwing(driver.tube, rest, loadOhm, gridV));
  const sourceOhm = 1 / (plateConductance(driver.tube, rest) + 1 / loadOhm);
  return filtered(plate, (hz) => coupling(driver, sourceOhm, hz));
}

/** Plate voltage, re its rest, at which tube and load carry the same change of current. */
function plateSwing(tube: TubeLaw, rest: RestingPoint, loadOhm: number, gridV: number): number {
  const spare = (swingV: number) =>
    rest.plateA - swingV / loadOhm - spaceCurrent(tube, rest.gridV + gridV, rest.plateV + swingV);
  return zeroOfFalling(spare, -rest.plateV, rest.plateA * loadOhm);
}

/** Coupling capacitor into the grid leak, then the source resistance into the next grid's capacitance. */
function coupling(driver: Driver, sourceOhm: number, hz: number): Complex {
  const turn = 2 * Math.PI * hz;
  const below = turn * driver.couplingF * driver.leakOhm;
  const highPass = over(complex(0, below), complex(1, below));
  return times(highPass, over(complex(1), complex(1, turn * sourceOhm * driver.inputF)));
}
