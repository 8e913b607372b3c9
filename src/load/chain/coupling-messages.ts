import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';

export const couplingOfTransformer = (): LoadFault => ({
  rule: 'load/unused-value',
  message: 'A single-ended stage with a transformer has no coupling capacitor at its plate.',
  hint: 'Take couplingCapacitor: out, or write topology: resistance-coupled.',
  path: ['couplingCapacitor'],
});

export const capacitorWithoutLeak = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'A coupling capacitor has a low corner only with the grid leak of the next stage.',
  hint: 'Add it, for example nextGridLeak: 470 kΩ.',
  path: ['couplingCapacitor'],
});

export const bypassWithoutResistor = (): LoadFault => ({
  rule: 'load/unused-value',
  message: 'A bypass capacitor belongs to a cathode resistor that is bypassed.',
  hint: 'Write bias: { cathodeResistor: 1.5 kΩ, bypassed: true }, or take bypassCapacitor: out.',
  path: ['bypassCapacitor'],
});

export const screenTwice = (): LoadFault => ({
  rule: 'load/unused-value',
  message: 'The screen has a stated voltage and a resistor from the supply; one of them decides.',
  hint: 'Take screen: out to have the voltage solved, or screenResistor: to keep it.',
  path: ['screenResistor'],
});

export const screenResistorUnused = (): LoadFault => ({
  rule: 'load/unused-value',
  message: 'Only the screen of a pentode connection is fed through a resistor of its own.',
  hint: 'Take screenResistor: out, or write connection: pentode.',
  path: ['screenResistor'],
});

export const screenSupplyMissing = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'A screen resistor needs the voltage of the supply that it hangs on.',
  hint: 'Add supply: to the stage, for example supply: 300 V, or plate: to the supply.',
  path: ['screenResistor'],
});

export const noScreenBalance = (ohm: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `No screen voltage satisfies the supply, a screen resistor of ${quantityText(ohm, 'Ω')} and the bias together.`,
  hint: 'Use a smaller screen resistor, less bias or less plate current.',
  path: ['screenResistor'],
});
