import { printNumber, quantityText } from '../../quantity/index.ts';
import type { StageCycle } from '../solving/settle.ts';
import type { AtLoad, MeasuredComparison, ModelFit, RestingStage, TubeStageSheet } from '../types.ts';
import { nearestToEnd } from './end-of-curves.ts';

const percent = (ratio: number) => quantityText(100 * ratio, '%', 2);

type Told = Pick<
  TubeStageSheet,
  'curvesFrom' | 'measured' | 'modelFit' | 'typed' | 'device' | 'tapRatio' | 'gain'
>;

/** Sentences on what the figures rest on: a measured current, traced curves or typed values. */
export function explainDevice(sheet: Told): string[] {
  return [
    typed(sheet),
    sheet.tapRatio === null ? null : tap(sheet.tapRatio),
    sheet.measured && measured(sheet.measured, sheet.curvesFrom),
    sheet.modelFit && misfit(sheet.modelFit, sheet.device),
  ].flatMap((sentence) => sentence ?? []);
}

function typed({ typed: values, device, gain }: Told): string | null {
  if (values?.rpOhm == null || values.mu === null) return null;
  const amplified = gain ? `Small signals are amplified ${printNumber(gain.bypassed)} times. ` : '';
  return (
    `${amplified}The figures of the ${device} are the typed values: mu ${printNumber(values.mu)}, plate resistance ` +
    `${quantityText(values.rpOhm, 'Ω')}. They hold at the operating point they were read at, and for small signals only.`
  );
}

function tap(ratio: number): string {
  return (
    `The screen follows the plate at ${percent(ratio)} of its swing, and its signal current works through that share ` +
    `of the turns; as a share of the impedance the tap stands at ${quantityText(100 * ratio ** 2, '%')}.`
  );
}

/** Where a swing that the curves end comes to their border. */
export function explainEnd(stage: RestingStage, { at, cycle }: { at: AtLoad; cycle: StageCycle }): string[] {
  if (at.limitedBy !== 'traced curves') return [];
  const end = nearestToEnd(stage, cycle.half);
  if (end === null) return [];
  const place = `${quantityText(end.plateV, 'V')} on the plate with ${quantityText(end.gridV, 'V')} on the grid`;
  return [`The swing leaves the traced curves at ${place}; trace beyond that for the whole of it.`];
}

function measured(
  { plateA, modelA, factor, rescaled, at }: MeasuredComparison,
  curves: string | null,
): string {
  const source = curves === null ? 'the model' : 'the curves';
  const point = `at ${quantityText(at.plateV, 'V')} on the plate and ${quantityText(at.gridV, 'V')} on the grid`;
  const beside =
    `Measured were ${quantityText(plateA, 'A')} a tube; ${point} ${source} would have ` +
    `${quantityText(modelA, 'A')}, so that this tube draws ${printNumber(factor)} times as much.`;
  return rescaled
    ? `${beside} All figures are those of ${source} with every current multiplied by this factor.`
    : `${beside} The figures are those of ${source} as it is.`;
}

function misfit(found: ModelFit, device: string): string {
  const { largestRatio, largestAt, rmsRatio, currentFactor, rmsRatioWithFactor } = found;
  const way = largestRatio > 0 ? 'more' : 'less';
  return (
    `The published model of the ${device} misses the traced currents by ${percent(rmsRatio)} rms, and at worst draws ` +
    `${percent(Math.abs(largestRatio))} ${way}, at ${quantityText(largestAt.plateV, 'V')} and ` +
    `${quantityText(largestAt.gridV, 'V')} on the grid; times ${printNumber(currentFactor)} it would miss them by ` +
    `${percent(rmsRatioWithFactor)} rms.`
  );
}
