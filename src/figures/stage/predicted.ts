import {
  atDistortion,
  atPower,
  type DrivenPoint,
  overDrive,
  type PowerStage,
  ratioOf,
  type StageSheet,
} from '../../load/index.ts';
import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Figure } from '../types.ts';

/** What a model and a measurement say of one figure; the model has no interval. */
export interface PredictedRow {
  model: Figure;
  measured: Figure;
  verdict: PredictedVerdict;
  /** Measured over modelled. */
  decibels: number | null;
}

/** The measured value re that of the model, as far as its interval tells. */
type PredictedVerdict = 'lower' | 'higher' | 'cannot be told apart' | 'no interval' | 'no data';

/** Distortion measured at a power. */
interface MeasuredAtPower {
  powerW: number;
  /** Of total distortion and single harmonics. */
  figures: readonly Figure[];
}

/** Distortion of a stage whose drive is such that it gives the power measured, beside what was measured there. */
export function predictedAtPower(stage: PowerStage, { powerW, figures }: MeasuredAtPower): PredictedRow[] {
  const point = atPower(stage, powerW);
  return figures.map((measured) =>
    point
      ? rowOf(measured, ratioIn(point, measured.id))
      : rowOf(measured, null, beyondModel(powerW, stage.full.powerW)),
  );
}

/** A harmonic by the order in its id; anything else is the total. */
function ratioIn({ harmonics, thdRatio }: DrivenPoint, id: string): number {
  const order = /^harmonic-(\d+)/.exec(id)?.[1];
  return order === undefined ? thdRatio : ratioOf(harmonics, Number(order));
}

const beyondModel = (powerW: number, fullW: number) =>
  `The model reaches ${quantityText(fullW, 'W')}, which is less than the ${quantityText(powerW, 'W')} measured.`;

/** Powers at stated distortion of a stage, and at the end of its swing, beside what a level sweep gave. */
export function predictedPowers(
  { stage, fullW }: { stage: PowerStage | null; fullW: number },
  figures: readonly Figure[],
): PredictedRow[] {
  const points = stage ? overDrive(stage) : [];
  return figures.flatMap((measured): PredictedRow[] => {
    if (measured.id === 'clipping-onset') return [rowOf(measured, fullW)];
    const percent = /^power-at-(\d+)-percent$/.exec(measured.id)?.[1];
    if (!stage || percent === undefined) return [];
    const point = atDistortion(stage, points, Number(percent) / 100);
    return point ? [rowOf(measured, point.powerW)] : [rowOf(measured, null, neverReached(stage.full))];
  });
}

const neverReached = ({ powerW, thdRatio }: DrivenPoint) =>
  `The model ends at ${quantityText(powerW, 'W')} with ${printNumber(100 * thdRatio)}\u00a0%.`;

function rowOf(measured: Figure, value: number | null, absent?: string): PredictedRow {
  const { id, unit, subject } = measured;
  const model: Figure = {
    ...{ id, unit, value, conditions: {} },
    ...(absent === undefined ? {} : { absent }),
    ...(subject === undefined ? {} : { subject }),
    provenance: { ...measured.provenance, method: 'predicted-measured', settings: {} },
  };
  return { model, measured, verdict: verdictOf(measured, value), decibels: decibelsOf(measured, value) };
}

function decibelsOf({ value: measured, unit }: Figure, model: number | null): number | null {
  if (measured === null || model === null || !(measured > 0) || !(model > 0)) return null;
  return (unit === 'W' ? 10 : 20) * Math.log10(measured / model);
}

function verdictOf({ value: measured, low, high }: Figure, model: number | null): PredictedVerdict {
  if (measured === null || model === null) return 'no data';
  if (low === undefined || high === undefined) return 'no interval';
  if (model > high) return 'lower';
  return model < low ? 'higher' : 'cannot be told apart';
}

/** A verdict as a cell of a table says it. */
export function predictedText({ verdict, model, measured }: PredictedRow): string {
  switch (verdict) {
    case 'lower':
    case 'higher':
      return `measured ${verdict}`;
    case 'cannot be told apart':
      return 'the model is inside the interval';
    case 'no interval':
      return 'no interval to judge by';
    case 'no data':
      return measured.absent ?? model.absent ?? 'There is nothing to compare.';
  }
}

/** What stands between a stage's model and the amplifier that was measured. */
interface LeftOut {
  topology: StageSheet['topology'];
  /** Whether stages before it are described. */
  driven: boolean;
  /** Whether its transformer is described. */
  transformer: boolean;
  /** Around all stages; null where no way from the source is described. */
  feedbackDb: number | null;
}

/** What the model leaves out, in sentences. */
export function leftOutText({ topology, driven, transformer, feedbackDb }: LeftOut): string[] {
  const transistor = topology === 'follower' || topology === 'follower-pair';
  const driver = driven
    ? 'The stages before it are taken to be perfect: what they add, or cancel, is in the measurement alone.'
    : 'What drives it is taken to be perfect.';
  return [
    transistor
      ? 'The model of a transistor stage gives its largest sine and no distortion, so only that power is compared.'
      : driver,
    ...(transistor ? [] : [transformerText(transformer)]),
    feedbackDb !== null && feedbackDb > 0
      ? `The ${quantityText(feedbackDb, 'dB')} of feedback around the whole are not in the model’s distortion.`
      : 'Feedback around the whole, if there is any, is not in the model.',
  ];
}

function transformerText(described: boolean): string {
  if (described) {
    return 'Of the output transformer only the windings’ resistance is in the figures; its inductances and its core are not.';
  }
  return 'The output transformer is taken to be perfect: its losses lower what is measured.';
}
