import { printNumber, quantityText } from '../../quantity/index.ts';
import { explainDevice } from '../device/device-explanation.ts';
import type { AtLoad, SwingLimit, TubeStageSheet } from '../types.ts';
import { explainLoads } from './loads-explanation.ts';
import {
  curvesCaution,
  largestPower,
  modelCaution,
  ordinals,
  overRatings,
  percent,
} from './shared-explanation.ts';

type Figures = Omit<TubeStageSheet, 'explanation' | 'absent'>;

const exactPercent = (ratio: number) => quantityText(100 * ratio, '%', 3);

/**
 * A few sentences on this stage: rest and ratings, what ends the swing, which harmonic leads, where the load
 * stands among the candidates. Every number in them is a figure of the sheet.
 */
export function explainStage(sheet: Figures): string[] {
  return [
    rest(sheet),
    ...explainDevice(sheet),
    overRatings(sheet.limits),
    gain(sheet),
    ...atLoad(sheet),
    ...explainLoads(sheet.candidates, sheet.atLoad?.loadOhm ?? null),
    largestPower(sheet),
    ...caution(sheet),
  ].flatMap((sentence) => sentence ?? []);
}

/** What the model leaves out. */
function caution({ operatingPoint, curvesFrom }: Figures): string[] {
  if (!operatingPoint) return [];
  if (curvesFrom !== null) return [curvesCaution(curvesFrom)];
  return modelCaution({ circuit: ',', hasScreen: operatingPoint.screenA !== null });
}

function rest({ count, device, operatingPoint, limits }: Figures): string | null {
  if (!operatingPoint) return null;
  const { plateA, plateV, gridV } = operatingPoint;
  const dissipation = limits.find(({ name }) => name === 'plate dissipation');
  const share = dissipation?.share ?? null;
  const rated = share === null ? '' : `, ${percent(share)} of the rating`;
  const warmth = dissipation
    ? ` and ${count === 1 ? 'dissipates' : 'each dissipates'} ${quantityText(dissipation.value, 'W')} at the plate${rated}`
    : '';
  const drawing = count === 1 ? `the ${device} draws` : `${count} × ${device} in parallel together draw`;
  return (
    `At rest ${drawing} ${quantityText(plateA, 'A')} at ${quantityText(plateV, 'V')} with ` +
    `${quantityText(gridV, 'V')} at the grid${warmth}.`
  );
}

function gain({ topology, gain: found }: Figures): string | null {
  if (topology !== 'resistance-coupled' || !found) return null;
  const times = (value: number) => `${printNumber(value)} times`;
  return found.unbypassed === null
    ? `Small signals are amplified ${times(found.bypassed)}.`
    : `Small signals are amplified ${times(found.bypassed)} with the cathode resistor bypassed and ` +
        `${times(found.unbypassed)} without the capacitor.`;
}

function atLoad({ topology, atLoad: at, operatingPoint }: Figures): (string | null)[] {
  if (!at || !operatingPoint) return [];
  return [
    swing(at),
    output(topology, at),
    average(at, operatingPoint.plateA),
    leading(at),
    peak(topology, at, operatingPoint.plateV),
  ];
}

const endings: Readonly<Record<Exclude<SwingLimit, 'drive'>, string>> = {
  'grid current': 'where the grid reaches 0 V and grid current begins',
  'cut-off': 'at cut-off, where the plate current is down to 1 % of that at rest',
  'traced curves': 'at the end of the traced curves, beyond which nothing is known of the tube',
  saturation: 'in saturation, where more drive hardly lowers the plate voltage',
};

function swing({ loadOhm, driveV, limitedBy }: AtLoad): string {
  const load = quantityText(loadOhm, 'Ω');
  const drive = quantityText(driveV, 'V');
  return limitedBy === 'drive'
    ? `Into ${load} the drive is ${drive} peak, as described.`
    : `Into ${load} the swing ends ${endings[limitedBy]}, at ${drive} peak of drive.`;
}

function output(
  topology: TubeStageSheet['topology'],
  { outputVrms, powerW, efficiency, thdRatio }: AtLoad,
): string {
  const distorted = `a total distortion of ${percent(thdRatio)}`;
  return topology === 'resistance-coupled'
    ? `It then gives ${quantityText(outputVrms, 'V')} rms with ${distorted}.`
    : `It then delivers ${quantityText(powerW, 'W')} at the fundamental, ${percent(efficiency)} of the power from ` +
        `the plate supply, with ${distorted}.`;
}

/** Worth a sentence only where the current moves by more than a hundredth. */
function average({ averagePlateA }: AtLoad, restA: number): string | null {
  if (Math.abs(averagePlateA / restA - 1) < 0.01) return null;
  const moves = averagePlateA > restA ? 'rises' : 'falls';
  return (
    `With this drive the average plate current ${moves} from ${quantityText(restA, 'A')} to ` +
    `${quantityText(averagePlateA, 'A')}.`
  );
}

function leading({ harmonics }: AtLoad): string | null {
  const [first, second] = [...harmonics].sort((a, b) => b.ratio - a.ratio);
  if (!first || !second) return null;
  return (
    `The ${ordinals[first.order]} harmonic leads at ${exactPercent(first.ratio)}, before the ` +
    `${ordinals[second.order]} at ${exactPercent(second.ratio)}.`
  );
}

function peak(topology: TubeStageSheet['topology'], { peakPlateV }: AtLoad, restV: number): string | null {
  if (topology === 'resistance-coupled') return null;
  return (
    `The plate swings up to ${quantityText(peakPlateV, 'V')} to the cathode, ${printNumber(peakPlateV / restV)} ` +
    `times its voltage at rest.`
  );
}
