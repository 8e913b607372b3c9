import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';
import { warning } from '../warning.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');

export const noScreenToTap = (device: string): LoadFault => ({
  rule: 'load/connection',
  message: `A ${device} has no screen, so it cannot be connected in distributed load.`,
  hint: 'Write connection: triode, and leave tapTurns out.',
  path: ['connection'],
});

export const tapMissing = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'The stage is connected in distributed load, but its tap is not stated.',
  hint: 'Add the share of the turns between supply and screen tap, for example tapTurns: 43 %.',
  path: ['tapTurns'],
});

export const tapOutOfRange = (ratio: number): LoadFault => ({
  rule: 'load/out-of-range',
  message: `A tap at ${Number.isFinite(ratio) ? quantityText(100 * ratio, '%') : 'this value'} does not lie on the winding.`,
  hint: 'Values from 0 % (pentode) to 100 % (triode) are accepted; it is the share of turns, not of impedance.',
  path: ['tapTurns'],
});

export const tapUnused = (connection: string): LoadFault => ({
  rule: 'load/connection',
  message: `A tap is stated, but the stage is connected as ${connection}.`,
  hint: 'Write connection: distributed-load, or leave tapTurns out.',
  path: ['tapTurns'],
});

export const countOutOfRange = (): LoadFault => ({
  rule: 'load/out-of-range',
  message: 'This is not a number of tubes in parallel.',
  hint: 'Whole numbers from 1 to 16 are accepted.',
  path: ['count'],
});

export const tappedCurves = (): LoadFault => ({
  rule: 'load/connection',
  message: 'Curves traced at one screen voltage say nothing of a screen that moves with the plate.',
  hint: 'Use the model of the type for distributed load, or connect the stage as the curves were traced.',
  path: ['curves'],
});

export const unusableCurves = (why: string): LoadFault => ({
  rule: 'load/traced-curves',
  message: `The traced curves cannot be used: ${why}.`,
  hint: 'Trace two grid voltages at least, with two plate voltages at least on each.',
  path: ['curves'],
});

export const restOutsideCurves = (plateV: number, gridV: number): LoadFault => ({
  rule: 'load/outside-curves',
  message: `The point of rest, ${volts(plateV)} at the plate and ${volts(gridV)} at the grid, lies outside the traced curves.`,
  hint: 'Trace further, or choose a bias and a supply within the curves; nothing is extrapolated.',
  path: ['curves'],
});

export const tooFewSmallSignal = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'Small-signal values need two of mu, plateResistance and transconductance.',
  hint: 'Write for example smallSignal: { mu: 20, plateResistance: 7.7 kΩ }.',
  path: ['smallSignal'],
});

export const typedBesideModel = (): LoadFault => ({
  rule: 'load/contradiction',
  message:
    'Small-signal values are typed for a stage that has traced curves, a measured current, a tap or parallel tubes.',
  hint: 'Typed values stand in place of a model and are those of the whole stage: leave out smallSignal, or the others.',
  path: ['smallSignal'],
});

export const disagreeingSmallSignal = (mu: number, product: number): LoadFault =>
  warning(
    ['smallSignal'],
    'load/small-signal',
    `Transconductance times plate resistance is ${quantityText(product, '')}, but mu is given as ${quantityText(mu, '')}.`,
    'Take all three values from one operating point; the figures use mu and plate resistance.',
  );

export const farFromModel = (factor: number): LoadFault =>
  warning(
    ['measured', 'plateCurrent'],
    'load/measured-current',
    `The measured current is ${quantityText(factor, '')} times that of the model, which does not describe this tube.`,
    'Check the reading, the type and the voltages; trace the curves of the tube for figures that hold.',
  );

export const nothingToCompare = (): LoadFault =>
  warning(
    ['measured'],
    'load/measured-current',
    'The model draws nothing at the measured point, or the point lies outside the traced curves, so that nothing is compared.',
    'Check the measured voltages and the type.',
  );

// Reasons of figures that are not there.

export const typedOnly = () => 'Typed small-signal values say nothing of large signals.';
export const noFit = (device: string) =>
  `No model of the ${device} is in the data to compare the traced curves with.`;
export const leavesCurves = (driveV: number) =>
  `A drive of ${volts(driveV)} peak leaves the traced curves, and nothing is extrapolated.`;
export const noComparison = (plateA: number) =>
  `The measured ${amperes(plateA)} cannot be compared: see the problems.`;
export const screenNotTraced = () =>
  'The screen current was not traced: screen ratings are not judged, and the screen current is missing from the cathode current.';
