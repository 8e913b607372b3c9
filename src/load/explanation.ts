import { printNumber, quantityText } from '../quantity/index.ts';
import { explainDevice } from './device-explanation.ts';
import { explainDisagreement } from './disagreement.ts';
import type { AtLoad, LimitRow, SwingLimit, TubeStageSheet } from './types.ts';

type Figures = Omit<TubeStageSheet, 'explanation' | 'absent'>;

const percent = (ratio: number) => quantityText(100 * ratio, '%', ratio >= 1 ? 3 : 2);
const exactPercent = (ratio: number) => quantityText(100 * ratio, '%', 3);
const ordinals = ['', '', 'second', 'third', 'fourth', 'fifth', 'sixth', 'seventh'];

/**
 * A few sentences on this stage: rest and ratings, what ends the swing, which harmonic leads, where the load
 * stands among the candidates. Every number in them is a figure of the sheet.
 */
export function explainStage(sheet: Figures): string[] {
  return [
    rest(sheet),
    ...explainDevice(sheet),
    over(sheet.limits),
    gain(sheet),
    ...atLoad(sheet),
    ...explainDisagreement(sheet.candidates, sheet.atLoad?.loadOhm ?? null),
    power(sheet),
    ...caution(sheet),
  ].flatMap((sentence) => sentence ?? []);
}

/** What the model leaves out. */
function caution({ operatingPoint, curvesFrom }: Figures): string[] {
  if (!operatingPoint) return [];
  if (curvesFrom !== null) return [ofCurves(curvesFrom)];
  const model =
    'These are figures of a published model of an average tube, without grid current: compare the current ' +
    'at rest with a measured one.';
  const screen =
    'The screen current of the model does not rise when the plate swings low, as that of a tube does, so ' +
    'that its screen dissipation at full drive is too low.';
  return operatingPoint.screenA === null ? [model] : [model, screen];
}

const ofCurves = (file: string) =>
  `These are figures of the curves traced in ${file}, of that specimen at its trace's screen voltage, without grid ` +
  'current; nothing is extrapolated beyond them.';

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

function over(limits: readonly LimitRow[]): string | null {
  const names = limits.filter((row) => row.over).map(({ name, when }) => `${name} ${when ?? ''}`.trim());
  return names.length === 0 ? null : `Above the rating: ${names.join(', ')}.`;
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

/** What the load of largest power would give instead. */
function power({ candidates, atLoad: at }: Figures): string | null {
  const best = candidates.find(({ method }) => method === 'largest power');
  if (!at || !best?.powerW || best.loadOhm === null || best.thdRatio === null) return null;
  if (best.powerW <= at.powerW * 1.02) return null;
  const lessDb = 10 * Math.log10(best.powerW / at.powerW);
  return (
    `The largest power of the range is ${quantityText(best.powerW, 'W')} at ${quantityText(best.loadOhm, 'Ω')}, ` +
    `${quantityText(lessDb, 'dB', 2)} more than here, with ${percent(best.thdRatio)} instead of ` +
    `${percent(at.thdRatio)} total distortion.`
  );
}
