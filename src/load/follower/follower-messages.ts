import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';
import { warning } from '../warning.ts';

const volts = (value: number) => quantityText(value, 'V');
const watts = (value: number) => quantityText(value, 'W');

export const railMissing = (single: boolean): LoadFault => ({
  rule: 'load/missing-value',
  message: 'Neither the rail of the stage nor the voltage of the supply is stated.',
  hint: single
    ? 'Add the voltage of the supply, for example rail: 36 V.'
    : 'Add rails: to the supply or to the stage, for example rails: 18 V for plus and minus 18 V.',
  path: [single ? 'rail' : 'rails'],
});

export const nothingLeft = (railV: number, lossV: number): LoadFault => ({
  rule: 'load/no-output',
  message: `Of ${volts(railV)} from the output to the rail at rest, nothing is left for a signal after a loss of ${volts(lossV)} and the emitter resistors.`,
  hint: 'Check the rail, the loss, the emitter resistors, the current at rest and the source resistance of the supply.',
  path: ['lossVoltage'],
});

export const coldJunction = (maxC: number, lowestC: number): LoadFault => ({
  rule: 'load/junction',
  message: `The highest junction temperature of ${quantityText(maxC, '°C')} is not above ${quantityText(lowestC, '°C')}.`,
  hint: 'Write the highest junction temperature of the data sheet, for example maxJunction: 150 °C; it is above that of the air and above 25 °C.',
  path: ['thermal', 'maxJunction'],
});

export const noJunctionToCase = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'The thermal path does not say how the heat gets from the junction to the case.',
  hint: 'Add junctionToCase:, for example junctionToCase: 1.2 K/W, or the rated power to ratings:.',
  path: ['thermal', 'junctionToCase'],
});

// Warnings.

export const overTransistorRating = (
  path: LoadFault['path'],
  name: string,
  value: string,
  limit: string,
): LoadFault =>
  warning(
    path,
    'load/over-rating',
    `The ${name} is ${value}, above the stated ${limit}.`,
    'Use a lower rail, a higher load, a larger sink, less current at rest, or more transistors in parallel.',
  );

export const beyondClipping = (wantedW: number, mostW: number): LoadFault =>
  warning(
    ['power'],
    'load/beyond-clipping',
    `The stage is to deliver ${watts(wantedW)}, but its largest sine is ${watts(mostW)}.`,
    'Ask for less power, or use a higher rail.',
  );

// Reasons of figures that are not there.

export const noState = () => 'The stage has no output; see the problems.';
export const noStatedPower = () => 'No output power is asked for, so there are no figures at one.';
export const aboveLargest = () => 'The power asked for is above the largest sine.';
export const noThermalPath = () => 'No way of the heat is described, so there are no temperatures.';
export const noEmitterResistor = () =>
  'There is no emitter resistor across which the current at rest could be read.';
export const directCoupled = () => 'The load is coupled without a capacitor, so that none sets a low corner.';
export const noTransistorRating = () => 'The stage states no rating for it.';
