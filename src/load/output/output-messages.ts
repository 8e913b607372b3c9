import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';

const amperes = (value: number) => quantityText(value, 'A');

export const overRatedDirect = (transformer: string, directA: number, ratedA: number): LoadFault => ({
  rule: 'load/over-rating',
  severity: 'warning',
  message: `The ${amperes(directA)} at rest are more than the ${amperes(ratedA)} that ${transformer} is rated for.`,
  hint: 'Bias the stage for less current, or use a transformer whose gap is made for it.',
  path: ['transformer'],
});

export const loadStatedTwice = (): LoadFault => ({
  rule: 'load/contradiction',
  message: 'The load at the plate is stated, but a transformer and a loudspeaker are too.',
  hint: 'Keep load: or transformer: with speaker:, not both.',
  path: ['load'],
});

export const noTransformerHere = (): LoadFault => ({
  rule: 'load/contradiction',
  message: 'A resistance-coupled stage has no output transformer.',
  hint: 'Leave transformer: out, or write topology: single-ended.',
  path: ['transformer'],
});

export const shareOutOfRange = (): LoadFault => ({
  rule: 'load/out-of-range',
  message: 'This is no share of the turns of a winding.',
  hint: 'Values above 0 % and up to 100 % are accepted.',
  path: ['primaryTurns'],
});

// Reasons of figures that are not there.

export const noWindingResistance = () =>
  'The insertion loss needs the resistance of both windings, and one is not stated.';
export const noPrimaryInductance = () => 'The low end needs the primary inductance, which is not stated.';
export const noLeakage = () => 'The high end needs the leakage inductance, which is not stated.';
export const noSource = () =>
  'The high end and the impedance at the loudspeaker need the plate resistance, which the model does not give here.';
export const noCoreRating = () =>
  'The power at low frequencies needs rated power and frequency, the load of the secondary, the primary inductance and the rated direct current; one of them is not stated.';
export const coreFull = () =>
  'The direct current alone takes all the flux that the ratings leave, so that no power can be stated for low frequencies.';
export const noRealLoad = () =>
  'With neither an inductance nor the sweep of a loudspeaker the load is the same at every frequency.';
export const noOutput = () => 'The output transformer needs an operating point.';
export const noFullPower = () => 'There is no full power to put into the loudspeaker.';
