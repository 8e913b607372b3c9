import type { LoadFault } from '../types.ts';

export const unbypassedPair = (): LoadFault => ({
  rule: 'load/unbypassed',
  message: 'The common cathode resistor of a pair is computed with its capacitor only.',
  hint: 'Write bypassed: true, or leave it out; in class A the capacitor hardly matters to a pair.',
  path: ['bias', 'bypassed'],
});

export const pairLoadMissing = (): LoadFault => ({
  rule: 'load/no-load',
  message:
    'A pair needs its load from plate to plate, or an output transformer with what is on its secondary.',
  hint: 'Add for example load: 6.6 kΩ, or transformer: with speaker:.',
  path: ['load'],
});

export const mismatchOutOfRange = (): LoadFault => ({
  rule: 'load/out-of-range',
  message: 'The currents of the two sides cannot differ by this share of their mean.',
  hint: 'Write a share from 0 to 100 %, for example mismatch: 10 %.',
  path: ['mismatch'],
});

// Reasons of figures that are not there.

export const nothingSettles = () => 'Bias, winding and currents find no steady state with this drive.';
export const noClassAGeometry = () =>
  'plate voltage over current is below twice rp, so that no load satisfies the rule';
