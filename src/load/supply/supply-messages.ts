import { nearestNames } from '../../problem/index.ts';
import { quantityText } from '../../quantity/index.ts';
import type { LoadFault } from '../types.ts';
import { warning } from '../warning.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');
const watts = (value: number) => quantityText(value, 'W');
const hertz = (value: number) => quantityText(value, 'Hz');

// Warnings.

export const sectionWithoutSeries = (path: LoadFault['path'], kind: 'RC' | 'LC'): LoadFault =>
  warning(
    path,
    'load/filter-section',
    `The ${kind} section states no ${kind === 'RC' ? 'resistance' : 'inductance'}, so that its capacitor counts as joined to the one before and filters nothing.`,
    kind === 'RC' ? 'Add it, for example resistance: 100 Ω.' : 'Add it, for example inductance: 10 H.',
  );

export const resonanceNearRipple = (
  path: LoadFault['path'],
  resonanceHz: number,
  rippleHz: number,
): LoadFault =>
  warning(
    path,
    'load/filter-resonance',
    `The LC section resonates at ${hertz(resonanceHz)}, above half the ripple frequency of ${hertz(rippleHz)}, where it filters little or raises the ripple.`,
    'A larger choke or capacitor brings the resonance down.',
  );

export const overRatedBleeder = (path: LoadFault['path'], watt: number, ratedW: number): LoadFault =>
  warning(
    path,
    'load/bleeder-rating',
    `The bleeder is rated ${watts(ratedW)}, but takes ${watts(watt)} off load with the mains 10 % high.`,
    'Use a resistor of a higher rated power, or share the power between several.',
  );

export const overRatedHeater = (
  path: LoadFault['path'],
  name: string,
  { totalA, ratedA }: { totalA: number; ratedA: number },
): LoadFault =>
  warning(
    path,
    'load/heater-rating',
    `The heaters on the winding "${name}" take ${amperes(totalA)}, above its rating of ${amperes(ratedA)}.`,
    'Move tubes to another winding, or use a transformer with a larger one.',
  );

export const heaterUnknown = (path: LoadFault['path'], reason: string): LoadFault =>
  warning(
    path,
    'load/heater-current',
    reason,
    'Add the current of each tube at this winding, for example current: 0.76 A.',
  );

export const currentDiffers = (statedA: number, drawnA: number): LoadFault =>
  warning(
    ['current'],
    'load/current-drawn',
    `The supply is stated at ${amperes(statedA)}, but the stages and bleeders described draw ${amperes(drawnA)} at rest, more than 25 % off.`,
    'Correct the stated current, or describe what is missing: a stage, or with channels: 2 a second channel.',
  );

export const unknownFed = (path: LoadFault['path'], id: string, known: readonly string[]): LoadFault => {
  const near = nearestNames(id, [...known]);
  return {
    rule: 'load/unknown-stage',
    message: `There is no stage "${id}" to be fed from here.`,
    hint: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : 'Write the id of one of the stages.',
    path,
  };
};

// Reasons of figures that are not there.

export const heaterStated = () => 'as stated';
export const noHeater = (device: string) => `The heater current of the ${device} is not in the data.`;
export const halvesInParallel = (source: string) => `${source}; its halves in parallel`;
export const otherHeaterVoltage = (device: string, heaterV: number, windingV: number) =>
  `The heater of the ${device} is made for ${volts(heaterV)}, and the winding gives ${volts(windingV)}.`;
export const noReservoir = () =>
  'The ripple is computed behind a reservoir capacitor only; this supply begins with a filter section.';
export const sectionsOfRails = () =>
  'Which rail a filter section stands in is not described, so the ripple is that across the reservoir only.';
export const noBleederNeeded = () =>
  'The supply stands below 60 V from the start, so no bleeder is asked for.';
export const bleederOfRails = () =>
  'Each rail of a split supply needs a bleeder of its own; the bleeder needed is not computed for it.';
export const noDrawn = () => 'No stage with a known current draws from the supply.';
export const noHum = () => 'Hum needs the ripple of the supply.';
export const noOutputStage = () => 'No output stage is described, so there is no hum to expect.';
export const screenRippleUnknown = () =>
  'What reaches the screen of the ripple is not described, and it counts for more than what reaches the plate.';
export const sidesCancel = () =>
  'Between two like sides the ripple of the supply cancels; by how much the sides differ is not described.';
export const railsOfFollower = () =>
  'How much of the ripple of its rails a follower lets through depends on its driver, which is not described.';
export const noLoadForHum = () =>
  'Without an operating point, a load and a plate resistance the hum is not known.';
export const noSagVoltage = () =>
  'The supply at rest and at full drive needs its voltage, current and source resistance, and a full drive.';
export const noSag = (stage: string) =>
  `With the supply that full drive leaves, the stage ${stage} finds no steady state.`;
