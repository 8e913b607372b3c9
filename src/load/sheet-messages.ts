import { printNumber } from '../quantity/index.ts';

export const sheetBasis = (plateV: string, screenV: string | null, bias: string, powerW: string) =>
  `printed for ${plateV} at the plate${screenV === null ? '' : `, ${screenV} at the screen`}, ${bias}; ${powerW} there`;

export const spaceChargeBasis = (factor: number) =>
  `every electrode voltage ${printNumber(factor)} times that of the sheet, the bias moved with them and the current left to follow`;

export const voltageOverCurrentBasis = (voltages: number, currents: number) =>
  `the same swing on a plate with ${printNumber(voltages)} times the voltage and ${printNumber(currents)} times the current of the sheet`;

export const unequalRatios = () =>
  'plate and screen do not stand at one ratio to the voltages of the sheet, so that the law does not apply';
