import { fewestCycles, trialsPerLine } from '../fit/fit-record.ts';
import type { FittedLine } from '../fit/line-fit.ts';
import { locateLines } from '../fit/locate-fundamental.ts';
import { withoutLines } from '../fit/residual.ts';
import type { Finding } from '../messages.ts';
import {
  densitiesAt,
  densityAround,
  type LocalDensity,
  type ResidualSpectrum,
  residualSpectrum,
} from '../noise/residual-density.ts';
import { powerThreshold } from '../record/detection.ts';
import { sumOf } from '../statistics/statistics.ts';
import { type AnglePair, type CombinationFit, fitCombinations } from './combination-fit.ts';
import {
  type Combination,
  isSame,
  type LostCombination,
  type PlacedCombination,
  placeCombinations,
} from './combinations.ts';
import { twoToneMessages as messages } from './two-tone-messages.ts';

/** A combination with its fitted line and the density of the residual near it. */
export interface FittedCombination extends PlacedCombination {
  line: FittedLine;
  /** Peak amplitude. */
  amplitude: number;
  near: LocalDensity;
}

/** A record of two tones taken apart. */
export interface FittedPair {
  constant: number;
  lower: FittedCombination;
  upper: FittedCombination;
  /** Every other fitted line, by order. */
  others: FittedCombination[];
  /** Combinations without a line of their own. */
  lost: LostCombination[];
  residual: Float64Array;
  spectrum: ResidualSpectrum;
}

/** Where tones were declared, cycles per record, ascending; null to take the two strongest lines. */
type Declared = readonly [number, number] | null;

export type PairFit = { fitted: FittedPair; finding?: never } | { fitted?: never; finding: Finding };

const tones: readonly Combination[] = [
  { first: 1, second: 0 },
  { first: 0, second: 1 },
];
/** Strongest lines looked at for declared tones, and how far a tone may stand from its declaration. */
const mostCandidates = 12;
const tolerance = 0.01;
const leastTolerance = 2;
/** Probability that a line of pure noise passes for a tone. */
const falseTone = 1e-3;
/** Undeclared tones: neither is more than ten times the other, and both are twice anything else. */
const mostUnequal = 10;
const leastAhead = 2;

/**
 * Finds the two tones of a record and fits them jointly with their combinations up to the fifth order. Declared tones
 * are looked for near their place; otherwise the two strongest lines are taken, provided that nothing else could be
 * meant.
 */
export function fitTonePair(values: Float64Array, declared: Declared): PairFit {
  const start = declared ? declaredPlaces(values, declared) : strongestPair(values);
  if (start === null) return { finding: messages.noTwoTones() };
  const [lower, upper] = start;
  if (lower < fewestCycles) {
    return { finding: declared ? messages.tooFewCycles(lower) : messages.noTwoTones() };
  }
  if (upper > values.length / 2 - 1) return { finding: messages.aboveHalfRate() };
  if (upper - lower < fewestCycles) return { finding: messages.tonesTooClose(upper - lower) };
  const fitted = fitPair(values, start);
  if (fitted === null) return { finding: missing(declared) };
  const finding = faultOf(fitted, declared);
  return finding ? { finding } : { fitted };
}

const missing = (declared: Declared) => (declared ? messages.declaredToneMissing() : messages.noTwoTones());

function strongestPair(values: Float64Array): [number, number] | null {
  const [one, other] = locateLines(values, 2);
  return one === undefined || other === undefined ? null : [Math.min(one, other), Math.max(one, other)];
}

/** The strong line next to each declared tone; the declared place itself where none is near. */
function declaredPlaces(values: Float64Array, declared: readonly [number, number]): [number, number] {
  const candidates = [...locateLines(values, mostCandidates)];
  const place = (wanted: number) => {
    const nearest = candidates.toSorted((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))[0];
    return nearest !== undefined && isNear(nearest, wanted) ? nearest : wanted;
  };
  return [place(declared[0]), place(declared[1])];
}

const isNear = (cycles: number, wanted: number) =>
  Math.abs(cycles - wanted) <= Math.max(leastTolerance, tolerance * wanted);

/** The tones alone first, so that their places hold when the combinations join them. */
function fitPair(values: Float64Array, start: readonly [number, number]): FittedPair | null {
  const { length } = values;
  const toAngle = (2 * Math.PI) / length;
  const rough = fitCombinations(values, [start[0] * toAngle, start[1] * toAngle], tones);
  if (rough === null) return null;
  const { own, lost } = placeCombinations(cyclesOf(rough.angles, length), length);
  if (!tones.every((tone) => own.some((placed) => isSame(placed, tone)))) return null;
  const fit = fitCombinations(values, rough.angles, own);
  return fit && takeApart(values, fit, own, lost);
}

const cyclesOf = ([lower, upper]: AnglePair, length: number): [number, number] => [
  (lower * length) / (2 * Math.PI),
  (upper * length) / (2 * Math.PI),
];

function takeApart(
  values: Float64Array,
  { constant, lines }: CombinationFit,
  own: readonly PlacedCombination[],
  lost: LostCombination[],
): FittedPair | null {
  const residual = withoutLines(values, constant, lines);
  const spectrum = residualSpectrum(residual);
  const cycles = lines.map(({ angle }) => (angle * values.length) / (2 * Math.PI));
  const emptied = (at: number) => at < 1 || cycles.some((line) => Math.abs(line - at) < 1);
  const fitted = lines.map((line, i): FittedCombination => {
    const { first = 0, second = 0, order = 0 } = own[i] ?? {};
    const place = cycles[i] ?? 0;
    const near = densityAround(spectrum, place, emptied);
    return { first, second, order, cycles: place, line, amplitude: Math.hypot(line.cosine, line.sine), near };
  });
  const [lower, upper] = tones.map((tone) => fitted.find((line) => isSame(line, tone)));
  if (!lower || !upper) return null;
  const others = fitted.filter((line) => line !== lower && line !== upper);
  return { constant, lower, upper, others, lost, residual, spectrum };
}

/** What keeps two fitted lines from being the tones of a two-tone capture. */
function faultOf(fitted: FittedPair, declared: readonly [number, number] | null): Finding | null {
  const { lower, upper } = fitted;
  const lost = [lower, upper].find((tone, i) => declared && !isNear(tone.cycles, declared[i] ?? 0));
  if (lost || !standsClear(lower, fitted) || !standsClear(upper, fitted)) {
    return missing(declared);
  }
  return declared ? null : unclearPair(fitted);
}

/** A tone stands clear when it exceeds the lines around it further than the strongest line of noise would. */
function standsClear({ amplitude, near }: FittedCombination, { spectrum, residual }: FittedPair): boolean {
  const mean = sumOf(densitiesAt(spectrum, near.lines)) / Math.max(1, near.lines.length);
  const power = (amplitude * amplitude * residual.length) / 4;
  const threshold = powerThreshold(falseTone / ((trialsPerLine * residual.length) / 2), near.freedom);
  return power > threshold * Math.max(mean, near.density);
}

function unclearPair({ lower, upper, others, spectrum, residual }: FittedPair): Finding | null {
  const weaker = Math.min(lower.amplitude, upper.amplitude);
  const stronger = Math.max(lower.amplitude, upper.amplitude);
  if (stronger > mostUnequal * weaker) return messages.oneToneOnly(stronger / weaker);
  const multiple = Math.round(upper.cycles / lower.cycles);
  if (Math.abs(upper.cycles - multiple * lower.cycles) < 1 && multiple <= mostUnequal) {
    return messages.harmonicPair(multiple);
  }
  const unexplained = 2 * Math.sqrt(spectrum.fine.reduce((a, b) => Math.max(a, b), 0) / residual.length);
  const third = others.reduce((most, { amplitude }) => Math.max(most, amplitude), unexplained);
  return leastAhead * third > weaker ? messages.thirdLine(third / weaker) : null;
}
