import { nearestNames } from '../problem/index.ts';
import { quantityText } from '../quantity/index.ts';
import type { LoadFault } from './types.ts';
import { warning } from './warning.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');
const ohms = (value: number) => quantityText(value, 'Ω');

// Faults of a description.

export const unknownDevice = (device: string, known: Iterable<string>): LoadFault => {
  const names = [...known].sort();
  const near = nearestNames(device, names);
  return {
    rule: 'load/unknown-device',
    message: `There are no model parameters for "${device}".`,
    hint: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Known types are ${names.join(', ')}.`,
    path: ['device'],
  };
};

export const noScreen = (device: string): LoadFault => ({
  rule: 'load/connection',
  message: `A ${device} has no screen, so it cannot be connected as a pentode.`,
  hint: 'Write connection: triode.',
  path: ['connection'],
});

export const screenMissing = (device: string): LoadFault => ({
  rule: 'load/missing-value',
  message: `The ${device} is connected as a pentode, but its screen voltage is not stated.`,
  hint: 'Add the screen voltage to the cathode, for example screen: 250 V.',
  path: ['screen'],
});

export const plateMissing = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'Neither the plate voltage of the stage nor the voltage of the supply is stated.',
  hint: 'Add plate: to the stage (plate to cathode at rest) or to the supply.',
  path: ['plate'],
});

export const plateResistorMissing = (): LoadFault => ({
  rule: 'load/missing-value',
  message: 'A resistance-coupled stage needs its plate resistor.',
  hint: 'Add it, for example plateResistor: 100 kΩ.',
  path: ['plateResistor'],
});

export const outOfRange = (
  path: LoadFault['path'],
  value: number,
  unit: string,
  [least, most]: readonly [number, number],
): LoadFault => ({
  rule: 'load/out-of-range',
  message: `${Number.isFinite(value) ? quantityText(value, unit) : 'This value'} is outside what a stage can have here.`,
  hint: `Values from ${quantityText(least, unit)} to ${quantityText(most, unit)} are accepted; check the sign and the prefix of the unit.`,
  path,
});

export const positiveGrid = (gridV: number): LoadFault => ({
  rule: 'load/positive-grid',
  message: `A bias of ${volts(gridV)} makes the grid positive; the model has no grid current.`,
  hint: `A negative bias is written with its sign: grid: ${volts(-gridV)}.`,
  path: ['bias'],
});

export const cutOff = (plateA: number, gridV: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `The stage is cut off: with ${volts(gridV)} at the grid the model draws ${plateA === 0 ? 'no plate current' : amperes(plateA)}.`,
  hint: 'Use less bias, a smaller cathode resistor or more plate voltage.',
  path: ['bias'],
});

export const supplyUsedUp = (plateA: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `${amperes(plateA)} through the plate resistor drops the whole supply voltage, so that none is left at the plate.`,
  hint: 'Use less current, a smaller plate resistor or a higher supply.',
  path: ['bias'],
});

export const wantsPositiveGrid = (wantedA: number, mostA: number, plateV: number): LoadFault => ({
  rule: 'load/no-operating-point',
  message: `${amperes(wantedA)} cannot be reached: at ${volts(plateV)} and 0 V at the grid the model draws ${amperes(mostA)}.`,
  hint: 'Use less current, or more plate or screen voltage.',
  path: ['bias'],
});

export const noBalance = (): LoadFault => ({
  rule: 'load/no-operating-point',
  message: 'No plate voltage satisfies the supply, the resistors and the bias together.',
  hint: 'Check the supply voltage, the plate resistor and the bias.',
  path: ['bias'],
});

// Warnings.

export const overRating = (device: string, name: string, value: string, limit: string): LoadFault =>
  warning(
    ['device'],
    'load/over-rating',
    `The ${name} of the ${device} at rest is ${value}, above its rating of ${limit}.`,
    'The model describes an average tube: measure the current, or choose a cooler bias.',
  );

export const overRatingAtDrive = (device: string, name: string, value: string, limit: string): LoadFault =>
  warning(
    ['load'],
    'load/over-rating',
    `The ${name} of the ${device} is ${value}, above its rating of ${limit}.`,
    'Use a higher load, less supply voltage or less current at rest.',
  );

export const loadMissing = (): LoadFault =>
  warning(
    ['load'],
    'load/no-load',
    'The stage states no load, so there are no figures at a load; the range of loads is centred on plate voltage over plate current.',
    'Add the load seen by the plate, for example load: 5 kΩ.',
  );

export const beyondZeroGrid = (driveV: number, limitV: number): LoadFault =>
  warning(
    ['drive'],
    'load/grid-current',
    `A drive of ${volts(driveV)} takes the grid past 0 V, which it reaches at ${volts(limitV)}; the model has no grid current.`,
    'The figures hold for a driver that grid current does not load; use less drive for figures that do not depend on it.',
  );

export const overRatedCapacitor = (path: LoadFault['path'], ratedV: number, highestV: number): LoadFault =>
  warning(
    path,
    'load/capacitor-rating',
    `The capacitor is rated ${volts(ratedV)}, but it can see ${volts(highestV)} off load with the mains 10 % high.`,
    'Use a capacitor of a higher rated voltage.',
  );

export const noBleeder = (): LoadFault =>
  warning(
    ['capacitors'],
    'load/no-bleeder',
    'No bleeder is described: without one the capacitors stay charged after switching off.',
    'Add a bleeder to a capacitor, for example bleeder: 220 kΩ.',
  );

// Reasons of figures that are not there.

export const noRating = (device: string, name: string) =>
  `No ${name} rating of the ${device} with a source is in the data.`;
export const noOperatingPoint = () => 'The stage has no operating point; see the problems.';
export const noLoad = () => 'No load is stated.';
export const neverEqual = () => 'the two are not equal anywhere in the range';
export const noDrive = () => 'The bias leaves the grid no swing.';
export const noFundamental = () => 'The drive does not move the plate current.';
export const noPlateResistance = () => 'The plate voltage has no influence on the current there.';
export const noGain = () => 'There is no gain without a load and a plate resistance.';
export const noPositiveLoad = () =>
  'plate voltage over current is below twice rp, so that no load satisfies the rule';
export const noKnee = () =>
  'the zero-bias curve never carries twice the current at rest below the plate voltage';
export const kneeBasis = (kneeV: number) =>
  `the zero-bias curve carries twice the current at rest at ${volts(kneeV)}`;
export const sweepBasis = (count: number, lowOhm: number, highOhm: number) =>
  `best of ${count} loads from ${ohms(lowOhm)} to ${ohms(highOhm)}`;
export const statedBasis = (count: number, lowOhm: number, highOhm: number) =>
  `${sweepBasis(count, lowOhm, highOhm)}, each at the drive that does this`;
export const noSpeaker = () => 'neither a loudspeaker nor the load that it is made for is stated';
export const impossibleLoad = () => 'its turns and resistances make a load that no stage can have';
export const powerNowhere = () => 'no load of the range gives this power before grid current begins';
export const distortionNowhere = () => 'none of the loads tried stays below this distortion at any drive';
export const noLoadThere = () =>
  'With the voltage or the current 10 % up there is no point of rest, the rule has no load in the range, or traced curves end there before the swing does.';
export const crossingBasis = (count: number, lowOhm: number, highOhm: number) =>
  `interpolated among ${count} loads from ${ohms(lowOhm)} to ${ohms(highOhm)}`;
export const atTheEnd = (loadOhm: number) =>
  `the best is at the end of the range, ${ohms(loadOhm)}, so that it may lie beyond`;
export const noSupplyVoltage = () => 'No supply voltage is stated.';
export const noCapacitors = () => 'No capacitor is described.';
export const noRipple = () => 'Ripple needs the mains frequency, the current and a capacitor.';
export const noDischarge = () => 'Without a working bleeder the supply does not discharge by itself.';

// Where an off-load voltage comes from.

export const offLoadStated = () => 'as stated';
export const offLoadEstimated = () => 'estimated as supply voltage plus current times source resistance';
export const offLoadFromSupply = () =>
  'the loaded supply voltage, for want of current and source resistance; off load it is higher';
export const offLoadFromWorking = () => 'the highest working voltage written at a capacitor';
