import { combinedInterval } from '../statistics/combined-interval.ts';
import { thdInterval } from '../statistics/thd-interval.ts';
import type { Fundamental } from '../types.ts';
import type { MeasuredLine } from './combination-lines.ts';
import { type Combination, isSame } from './combinations.ts';
import type {
  DifferenceFrequencyDistortion,
  IntermodulationFigure,
  ModulationDistortion,
  TwoTonePattern,
} from './two-tone-types.ts';

/** A low tone of four times the level: 4 to 1 to within a quarter, at least three octaves apart. */
const modulationLevels: readonly [number, number] = [3, 5];
const leastApart = 8;
/** Equal tones: within a fifth of each other and so close that the difference stays below 2f1 − f2. */
const equalLevels: readonly [number, number] = [0.8, 1.25];
const mostApart = 1.3;

/** Which set of figures two tones are made for, by their spacing and their levels. */
export function patternOf(
  lower: Pick<Fundamental, 'frequencyHz' | 'rms'>,
  upper: Pick<Fundamental, 'frequencyHz' | 'rms'>,
): TwoTonePattern {
  const spacing = upper.frequencyHz / lower.frequencyHz;
  const levels = lower.rms / upper.rms;
  const within = ([least, most]: readonly [number, number]) => levels >= least && levels <= most;
  if (spacing >= leastApart && within(modulationLevels)) return 'modulation';
  return spacing <= mostApart && within(equalLevels) ? 'difference-frequency' : null;
}

/** What the sums are made of. */
export interface IntermodulationInput {
  lines: readonly MeasuredLine[];
  lower: Fundamental;
  upper: Fundamental;
  /** Fine lines of the residual for each independent one. */
  finePerCycle: number;
}

const sidebands: readonly Combination[] = [
  { first: -1, second: 1 },
  { first: 1, second: 1 },
];
const farSidebands: readonly Combination[] = [
  { first: -2, second: 1 },
  { first: 2, second: 1 },
];
const difference: readonly Combination[] = [{ first: -1, second: 1 }];
const thirdOrder: readonly Combination[] = [
  { first: 2, second: -1 },
  { first: -1, second: 2 },
];

/** The lines that a set of figures is made of. */
export const linesOfPattern: Readonly<Record<'modulation' | 'difference-frequency', readonly Combination[]>> =
  {
    modulation: [...sidebands, ...farSidebands],
    'difference-frequency': [...difference, ...thirdOrder],
  };

/** How line amplitudes are put together. */
interface Sum {
  form: IntermodulationFigure['form'];
  of: (values: readonly number[]) => number;
}

const added = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0);
const oneLine: Sum = { form: 'one line', of: added };
const arithmetic: Sum = { form: 'arithmetic sum', of: added };
/** Both orders added within and as squares between; the first two lines are of second order. */
const ordersSquared: Sum = {
  form: 'root sum of squares',
  of: (values) => Math.hypot(added(values.slice(0, 2)), added(values.slice(2))),
};

/**
 * Modulation distortion re the upper tone. The sidebands of amplitude modulation add up to its depth, hence the
 * arithmetic sums.
 * @source d_m2 and d_m3: IEC 60268-3, modulation distortion, from memory; sidebands as per cent amplitude modulation re
 * the high tone: SMPTE RP 120-1983 as quoted by the FADGI glossary, digitizationguidelines.gov.
 */
export function modulationDistortion(input: IntermodulationInput): ModulationDistortion {
  const all = linesOfPattern.modulation;
  return {
    second: figureOf(input, sidebands, arithmetic, 'upper tone'),
    third: figureOf(input, farSidebands, arithmetic, 'upper tone'),
    total: figureOf(input, all, ordersSquared, 'upper tone'),
    sidebands: squaresOf(input, all, 'upper tone'),
  };
}

/**
 * Difference-frequency distortion, re the sum of both tones and, for the second order, also re their mean, which is one
 * tone and twice as much.
 * @source d_d2 and d_d3: IEC 60268-3, difference-frequency distortion, from memory.
 */
export function differenceFrequencyDistortion(input: IntermodulationInput): DifferenceFrequencyDistortion {
  return {
    second: figureOf(input, difference, oneLine, 'sum of both tones'),
    secondOneTone: figureOf(input, difference, oneLine, 'mean of both tones'),
    third: figureOf(input, thirdOrder, arithmetic, 'sum of both tones'),
    thirdRss: squaresOf(input, thirdOrder, 'sum of both tones'),
  };
}

/** Lines re the figure's reference instead of the upper tone, or null where one of them is lost. */
function partsOf(
  { lines, lower, upper }: IntermodulationInput,
  wanted: readonly Combination[],
  reference: IntermodulationFigure['reference'],
): MeasuredLine[] | null {
  const found = wanted.flatMap((combination) => lines.find((line) => isSame(line, combination)) ?? []);
  if (found.length < wanted.length) return null;
  const sum = (lower.rms + upper.rms) / upper.rms;
  const factor = { 'upper tone': 1, 'sum of both tones': 1 / sum, 'mean of both tones': 2 / sum }[reference];
  return found.map((line) => ({
    ...line,
    ratio: factor * line.ratio,
    uncertainty: factor * line.uncertainty,
    low: factor * line.low,
    high: factor * line.high,
  }));
}

function figureOf(
  input: IntermodulationInput,
  wanted: readonly Combination[],
  { form, of: total }: Sum,
  reference: IntermodulationFigure['reference'],
): IntermodulationFigure | null {
  const parts = partsOf(input, wanted, reference);
  if (parts === null) return null;
  const options = { parts, total, referenceUncertainty: relativeOf(input), freedom: freedomOf(parts, input) };
  return {
    ratio: total(parts.map(({ ratio }) => ratio)),
    ...(parts.length === 1 ? squaresInterval(parts, input) : combinedInterval(options)),
    ...{ reference, form, lines: parts.map(({ name }) => name) },
  };
}

function squaresOf(
  input: IntermodulationInput,
  wanted: readonly Combination[],
  reference: IntermodulationFigure['reference'],
): IntermodulationFigure | null {
  const parts = partsOf(input, wanted, reference);
  return (
    parts && {
      ratio: Math.hypot(...parts.map(({ ratio }) => ratio)),
      ...squaresInterval(parts, input),
      ...{ reference, form: 'root sum of squares', lines: parts.map(({ name }) => name) },
    }
  );
}

const squaresInterval = (parts: readonly MeasuredLine[], input: IntermodulationInput) =>
  thdInterval({
    harmonics: parts,
    fundamentalUncertainty: relativeOf(input),
    freedom: freedomOf(parts, input),
  });

const relativeOf = ({ upper }: IntermodulationInput) => upper.rmsUncertainty / upper.rms;

/** Degrees of freedom behind lines whose noise may have been read from the same part of the residual. */
const freedomOf = (parts: readonly MeasuredLine[], { finePerCycle }: IntermodulationInput) =>
  Math.max(1, new Set(parts.flatMap(({ noiseLines }) => noiseLines)).size / finePerCycle);
