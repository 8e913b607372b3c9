import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');

export const splitterSupplyMissing = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'Neither the stage nor the amplifier states a supply voltage, so that there is no point of rest.',
  hint: 'Add supply: to the stage, for example supply: 300 V, or plate: to the supply.',
  path: ['supply'],
});

export const gridAboveCathode = (gridV: number): LoadFault => ({
  rule: 'load/positive-grid',
  message: `At rest the grid stands ${volts(gridV)} above the cathode; the model has no grid current.`,
  hint: 'Use a lower grid voltage, a smaller cathode or tail resistor, or a higher supply.',
  path: ['bias'],
});

export const tubeCutOff = (plateA: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `The stage is cut off: the model draws ${plateA === 0 ? 'no plate current' : amperes(plateA)} at rest.`,
  hint: 'Use a higher grid voltage, a smaller cathode or tail resistor, or more supply voltage.',
  path: ['bias'],
});

export const tailWantsMore = (wantedA: number, mostA: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `The tail draws ${amperes(wantedA)}, but with 0 V between grid and cathode both tubes together give ${amperes(mostA)}.`,
  hint: 'Use less tail current, smaller plate resistors or a higher supply.',
  path: ['tail'],
});

export const floatingTap = (): LoadFault => ({
  rule: 'load/bias',
  message: 'A bias resistor above a current source leaves the grids without a voltage to ground.',
  hint: 'Write the voltage of the grids instead, for example bias: { gridVoltage: 0 V }.',
  path: ['bias'],
});

export const noSplitterPoint = (): LoadFault => ({
  rule: 'load/no-operating-point',
  message: 'No current satisfies the supply, the resistors and the bias together.',
  hint: 'Check the supply voltage, the resistors and the bias.',
  path: ['bias'],
});

export const noSlopes = () =>
  'The plate voltage has no influence on the current at rest, so that there are no gains.';
export const noSwing = () => 'The bias leaves the grid no swing.';
export const noEqualResistor = () => 'No resistor makes the two outputs equal.';
