import { printNumber, quantityText } from '../../quantity/index.ts';
import type { CurrentDrawn, HeaterSheet, HumRow, SupplySheet } from '../types.ts';

const volts = (value: number) => quantityText(value, 'V');
const amperes = (value: number) => quantityText(value, 'A');
const watts = (value: number) => quantityText(value, 'W');

const noFuse =
  'No fuse is chosen here: its rating and class are for the maker of the mains transformer and the local code.';

/** What the stages draw, what that does to the supply and to them, heaters, hum and fuse, in sentences. */
export function explainStages({
  drawn,
  hum,
  heaters,
}: Pick<SupplySheet, 'drawn' | 'hum' | 'heaters'>): string[] {
  return [
    ...(drawn ? drawnSentences(drawn) : []),
    ...hum.flatMap(humSentence),
    ...heaters.flatMap(heaterSentence),
    ...(drawn || heaters.length > 0 ? [noFuse] : []),
  ];
}

function drawnSentences(drawn: CurrentDrawn): string[] {
  const { restA, statedA, differenceRatio, unknown } = drawn;
  const against =
    statedA === null || differenceRatio === null
      ? ''
      : `, against ${amperes(statedA)} stated (${signedPercent(differenceRatio)})`;
  const missing =
    unknown.length === 0
      ? ''
      : ` Of ${unknown.join(', ')} the current is not known, so it is not in the sum.`;
  return [
    `The stages and bleeders described draw ${amperes(restA)} at rest${against}.${missing}`,
    ...supplyAtDrive(drawn),
    ...drawn.sag.map(({ stage, fallV, powerW, saggedPowerW }) => {
      const moves = fallV < 0 ? 'rises' : 'falls';
      return (
        `With all stages at full drive the supply of ${stage} ${moves} by ${volts(Math.abs(fallV))} from where it ` +
        `stands at rest, and its power goes from ${watts(powerW)} to ${watts(saggedPowerW)} with a tone that lasts.`
      );
    }),
  ];
}

function supplyAtDrive({ restV, fullV, fullA }: CurrentDrawn): string[] {
  if (restV === null || fullV === null || fullA === null) return [];
  return [
    `From the stated voltage, current and resistances the supply stands at ${quantityText(restV, 'V', 4)} at rest and, with ` +
      `${amperes(fullA)} at full drive, at ${quantityText(fullV, 'V', 4)}.`,
  ];
}

function humSentence({ stage, rippleVrms, loadVrms, dbReWatt }: HumRow): string[] {
  if (loadVrms === null || dbReWatt === null) return [];
  return [
    `${volts(rippleVrms)} of ripple at ${stage} leave ${volts(loadVrms)} across its load, a hum of ` +
      `${decibels(dbReWatt)} re 1 W in the rated load, without feedback and without what reaches its grid.`,
  ];
}

function heaterSentence({ name, totalA, ratedA }: HeaterSheet): string[] {
  if (totalA === null) return [];
  const against =
    ratedA === null ? '' : `, ${totalA > ratedA ? 'above' : 'not above'} its rating of ${amperes(ratedA)}`;
  return [`The heaters on the winding "${name}" take ${amperes(totalA)}${against}.`];
}

const sign = (value: number) => (value < 0 ? '\u2212' : '+');
const signedPercent = (ratio: number) => `${sign(ratio)}${printNumber(Math.abs(100 * ratio), 2)}\u00a0%`;
const decibels = (value: number) => `${sign(value)}${printNumber(Math.abs(value), 3)}\u00a0dB`;
