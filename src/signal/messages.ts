import { printNumber, quantityText } from '../quantity/index.ts';
import type { SignalWarning } from './types.ts';

/** What is to be said of a record, before it is known of which channel. */
export type Finding = Omit<SignalWarning, 'channel'>;

const percent = (ratio: number, digits = 2) => `${printNumber(100 * ratio, digits)} %`;
const hertz = (value: number, digits = 4) => quantityText(value, 'Hz', digits);
const watts = (value: number) => quantityText(value, 'W');
const degrees = (radians: number) => `${printNumber((180 / Math.PI) * radians, 2)}°`;
const orders = (from: number, to: number) => (from === to ? `order ${from}` : `orders ${from} to ${to}`);
const points = (count: number) => (count === 1 ? '1 point' : `${count} points`);

/** Every sentence that the signal room says about a waveform. */
export const waveformMessages = {
  rateUnusable: (): Finding => ({
    rule: 'sampling-rate-unusable',
    message: 'The sampling rate is not a number above zero, so nothing can be computed.',
    hint: 'State the sampling rate, or give the capture a time column.',
  }),
  recordTooShort: (rows: number, fewest: number): Finding => ({
    rule: 'record-too-short',
    message: `The record has ${rows} samples; a summary needs ${fewest} at least.`,
    hint: 'Record more samples.',
  }),
  sampleNotFinite: (position: number): Finding => ({
    rule: 'sample-not-finite',
    message: `Sample ${position} is not a finite number, so no figure of this channel can be trusted.`,
    hint: 'Look for gaps, text or overload marks in the column.',
  }),
  constantRecord: (): Finding => ({
    rule: 'constant-record',
    message: 'All samples are equal: there is no signal to describe.',
    hint: 'Check that the probe is connected and that the column is the right one.',
  }),
  tooFewCycles: (cycles: number): Finding => ({
    rule: 'too-few-cycles',
    message: `The record holds about ${printNumber(cycles, 2)} cycles of its strongest line; two are needed to tell the line from a constant and from its harmonics.`,
    hint: 'Record for a longer time; ten cycles or more make the uncertainties small.',
  }),
  noClearFundamental: (): Finding => ({
    rule: 'no-clear-fundamental',
    message:
      'No line stands clear of the noise around it, so there is no fundamental to refer distortion to.',
    hint: 'Check the signal level, and that the record is one of a steady sine.',
  }),
  unsteadyFundamental: (wander: number): Finding => ({
    rule: 'unsteady-fundamental',
    message: `The strongest line is not one steady sine: its level and phase wander by ${percent(wander)} of its amplitude over the record.`,
    hint: 'Let generator and amplifier settle, or use a shorter part of the record.',
  }),
  wanderingFundamental: (phase: number, level: number): Finding => ({
    rule: 'wandering-fundamental',
    message: `Over the record the fundamental's phase wanders by ${degrees(phase)} and its level by ${percent(level)} (rms); harmonics read low and uncertainties are widened accordingly.`,
    hint: 'Let generator and amplifier settle, or use a shorter part of the record.',
  }),
  strongerSlowChange: (): Finding => ({
    rule: 'stronger-slow-change',
    message:
      'A movement of fewer than two cycles over the record is stronger than the line taken as the fundamental.',
    hint: 'Check for drift, or for a fundamental too low for the length of the record.',
  }),
  clipping: (): Finding => ({
    rule: 'clipping',
    message: 'Tops or bottoms of the waveform are flat: something clips, the amplifier or the recorder.',
    hint: 'If the recorder clips, lower its sensitivity and record again; its distortion is in every figure here.',
  }),
  fewLevels: (fewest: number): Finding => ({
    rule: 'few-levels',
    message: `The samples take fewer than ${fewest} different levels, so that clipping cannot be told from coarse levels.`,
    hint: 'Use more of the converter’s range.',
  }),
  nothingAboveNoise: (high: number): Finding => ({
    rule: 'harmonics-below-noise',
    message: `The harmonics cannot be told from the noise: total harmonic distortion is below ${percent(high)}, and may be nothing.`,
    hint: 'A longer record, or averaging ahead of it, lowers the noise in each harmonic.',
  }),
  coarseLevels: (step: string, ratio: number): Finding => ({
    rule: 'coarse-levels',
    message: `The record's levels are ${step} apart and the noise is too small to blur them: rounding alone puts about ${percent(ratio)} into each harmonic, which the uncertainties include.`,
    hint: 'Use more of the converter’s range, or a converter of more bits.',
  }),
  ordersLeftOut: (asked: number, counted: number): Finding => ({
    rule: 'orders-left-out',
    message: `Of the harmonics up to order ${asked}, only ${orders(2, counted)} lie below half the sampling rate and are counted.`,
    hint: 'Compare only with summaries that count the same orders.',
  }),
  noOrders: (): Finding => ({
    rule: 'no-orders',
    message:
      'Even the second harmonic lies above half the sampling rate, so harmonic distortion cannot be measured.',
    hint: 'Sample faster, or use a lower frequency.',
  }),
  ordersUnusable: (asked: number, used: number): Finding => ({
    rule: 'orders-unusable',
    message: `Harmonics up to order ${printNumber(asked)} were asked for; orders up to ${used} were fitted instead.`,
    hint: 'The highest order is a whole number from 2 to 100.',
  }),
  bandNarrowed: (asked: readonly [number, number], used: readonly [number, number]): Finding => ({
    rule: 'band-narrowed',
    message: `THD+N is taken from ${hertz(used[0])} to ${hertz(used[1])} instead of ${hertz(asked[0])} to ${hertz(asked[1])}: the record's length and sampling rate allow no more.`,
    hint: 'Compare only with figures of the same band.',
  }),
  bandUnusable: ([low, high]: readonly [number, number]): Finding => ({
    rule: 'band-unusable',
    message: `The band asked for has an edge that is not a finite number; ${hertz(low)} to ${hertz(high)} is used.`,
    hint: 'State both edges of the band in hertz.',
  }),
  bandEmpty: (asked: readonly [number, number]): Finding => ({
    rule: 'band-empty',
    message: `Nothing is left of the band from ${bound(asked[0])} to ${bound(asked[1])}: its low edge must be below its high edge, below half the sampling rate, and its high edge above one over the record's length.`,
    hint: 'State a band that the record covers.',
  }),
  nothingBesidesFundamental: (): Finding => ({
    rule: 'nothing-besides-fundamental',
    message: 'Nothing is left besides the fundamental, so the ratio to it is infinite.',
  }),
  distortedStimulus: (stimulus: number, response: string): Finding => ({
    rule: 'distorted-stimulus',
    message: `The stimulus itself is distorted by ${percent(stimulus)}; the distortion of "${response}" includes what the circuit passes on of it.`,
    hint: 'Use a cleaner generator, or read the response as generator and circuit together.',
  }),
};

const named = (items: readonly number[]) =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
const ordersNamed = (items: readonly number[]) =>
  `${items.length === 1 ? 'order' : 'orders'} ${named(items)}`;

/** Fitted lines by their orders, the direct part as order 0. */
function linesNamed(met: readonly number[]): string {
  const sines = met.filter((order) => order > 0);
  const direct = met.length > sines.length ? ['the direct part'] : [];
  return [...direct, ...(sines.length > 0 ? [ordersNamed(sines)] : [])].join(' and ');
}

/** Every sentence about hum, noise, folding and what a sampled record carries besides its sines. */
export const detailMessages = {
  humNotResolved: (durationS: number, neededS: number): Finding => ({
    rule: 'hum-not-resolved',
    message: `The record lasts ${quantityText(durationS, 's', 2)}; telling the lines of the mains from each other and from the noise around them takes four of its cycles, ${quantityText(neededS, 's', 2)}.`,
    hint: 'Record for a longer time.',
  }),
  mainsAboveHalfRate: (mainsHz: number): Finding => ({
    rule: 'mains-above-half-rate',
    message: `The mains frequency of ${hertz(mainsHz)} is not below half the sampling rate.`,
  }),
  humLeftToHarmonics: (): Finding => ({
    rule: 'hum-left-to-harmonics',
    message:
      'Every multiple of the mains frequency stands on a harmonic of the fundamental within the resolution of the record, and is left to it.',
    hint: 'Use a fundamental between the multiples of the mains frequency, or a longer record.',
  }),
  fundamentalAtMains: (multiple: number, frequencyHz: number): Finding => ({
    rule: 'fundamental-at-mains',
    message: `The fundamental at ${hertz(frequencyHz)} stands on multiple ${multiple} of the mains frequency within the resolution of the record: signal and hum cannot be told apart there.`,
    hint: 'Use a fundamental between the multiples of the mains frequency, or a longer record.',
  }),
  foldedOnto: (folded: readonly number[], met: readonly number[]): Finding => ({
    rule: 'orders-fold-onto-lines',
    message: `Of the orders above half the sampling rate, ${ordersNamed(folded)} would appear on ${linesNamed(met)} unless something ahead of the converter keeps them out. What cannot be told from them is withheld${met.includes(1) ? '; the fundamental may be off by as much as they are strong' : ''}.`,
    hint: 'Sample faster or move the fundamental a little. Where a filter ends the band below half the rate, state it as bandwidth: of the instrument.',
  }),
  foldedOntoLine: (folded: readonly number[]): string =>
    `Sampling may have put ${ordersNamed(folded)} onto this line.`,
  foldedTotal: (met: readonly number[]): string =>
    `Sampling may have put higher orders onto ${ordersNamed(met)}, so that the sum cannot be trusted.`,
  foldedInto: (folded: readonly number[], [low, high]: readonly [number, number]): Finding => ({
    rule: 'orders-fold-into-band',
    message: `Unless something ahead of the converter keeps them out, ${ordersNamed(folded)} above half the sampling rate appear ${low === high ? `at ${hertz(low)}` : `between ${hertz(low)} and ${hertz(high)}`}, where they count as noise.`,
    hint: 'Sample faster, or state the bandwidth: of the instrument where a filter ends it below half the rate.',
  }),
  baselineDrift: (rise: string, ratio: number): Finding => ({
    rule: 'baseline-drift',
    message: `The direct part drifts by ${rise} over the record, ${percent(ratio)} of the fundamental’s peak; the drift is in the noise and widens the uncertainty of the low orders.`,
    hint: 'Wait until the amplifier has settled, or couple the input of the recorder by a capacitor.',
  }),
  largeDirectPart: (direct: string, peak: string): Finding => ({
    rule: 'large-direct-part',
    message: `The direct part is ${direct}, more than the fundamental’s peak of ${peak}: it takes up most of the recorder’s range.`,
    hint: 'An output should carry none; where the node has one by design, couple the input of the recorder by a capacitor.',
  }),
  noOrdersOf: (parity: 'even' | 'odd'): Finding => ({
    rule: 'no-orders-of-parity',
    message: `No ${parity} harmonic lies below half the sampling rate.`,
  }),
  fundamentalsDiffer: (stimulus: string, response: string): Finding => ({
    rule: 'fundamentals-differ',
    message: `The strongest lines of "${stimulus}" and "${response}" are not one and the same, so there is no gain and no phase between them.`,
    hint: 'Check that both columns are of one record and that neither is drowned in hum.',
  }),
  noVariation: (): Finding => ({
    rule: 'no-variation',
    message: 'The record does not vary, so it has no crest factor.',
  }),
  noLoad: (): Finding => ({
    rule: 'no-load',
    message: 'No load is declared, so the power into it is not known.',
    hint: 'State the load resistance, for example load: 8 Ω.',
  }),
  notAnOutput: (): Finding => ({
    rule: 'not-an-output',
    message: 'The declared load belongs to responses; this channel is none.',
  }),
  noPowerUnit: (unit: string): Finding => ({
    rule: 'no-power-unit',
    message: `A channel in ${unit === '1' ? 'plain numbers' : unit} has no power into a load.`,
  }),
  noNoiseReference: (): Finding => ({
    rule: 'no-noise-reference',
    message: 'There is neither a rated output nor a fundamental that the noise could be compared with.',
    hint: 'State ratedPower and ratedLoad of the version measured.',
  }),
};

/** A band edge as asked for, which may be no number at all. */
const bound = (value: number) => (Number.isFinite(value) ? hertz(value) : 'no number');

/** Every sentence that the signal room says about a sweep. */
export const sweepMessages = {
  pointsLeftOut: (count: number, axis: string): Finding => ({
    rule: 'points-left-out',
    message: `${points(count)} of the sweep ${count === 1 ? 'is' : 'are'} left out: the ${axis} there is not a finite number above zero.`,
    hint: 'Look for gaps and text in that column.',
  }),
  pointsRepeated: (count: number): Finding => ({
    rule: 'points-repeated',
    message: `${points(count)} of the sweep ${count === 1 ? 'repeats' : 'repeat'} the frequency of another; the mean at each frequency is used.`,
  }),
  valuesLeftOut: (count: number, column: string): Finding => ({
    rule: 'values-left-out',
    message: `${count === 1 ? '1 value' : `${count} values`} of ${column} cannot be used and ${count === 1 ? 'is' : 'are'} left out.`,
    hint: 'Levels are finite and above zero, distortion is finite and not negative.',
  }),
  columnLength: (column: string, found: number, expected: number): Finding => ({
    rule: 'column-length',
    message: `The column of ${column} has ${found} values for ${expected} points of the sweep, and is left out.`,
    hint: 'Every column of a sweep has one value for each point.',
  }),
  tooFewPoints: (): Finding => ({
    rule: 'too-few-points',
    message: 'The sweep has fewer than two usable points.',
    hint: 'Measure at more points.',
  }),
  noLevel: (): Finding => ({
    rule: 'no-level',
    message: 'The sweep has no usable level or gain, so it has no frequency response.',
  }),
  outsideSweep: (askedHz: number, [low, high]: readonly [number, number]): Finding => ({
    rule: 'outside-sweep',
    message: `The sweep runs from ${hertz(low)} to ${hertz(high)} and says nothing about ${bound(askedHz)}.`,
    hint: 'Nothing is extrapolated; measure a point on either side.',
  }),
  limitNotReached: (dropDb: number, side: 'lower' | 'upper', endHz: number): Finding => ({
    rule: 'limit-not-reached',
    message: `The ${side} limit at ${printNumber(-dropDb, 1)} dB lies beyond the sweep, which ends at ${hertz(endHz)}.`,
  }),
  bandOutsideSweep: ([low, high]: readonly [number, number]): Finding => ({
    rule: 'band-outside-sweep',
    message: `The sweep has nothing of the band from ${bound(low)} to ${bound(high)}, so no deviation can be stated.`,
  }),
  noPower: (): Finding => ({
    rule: 'no-power',
    message: 'The sweep has no output power, and none can be computed without an output voltage and a load.',
    hint: 'State the load resistance, for example load: 8 Ω.',
  }),
  noDistortion: (): Finding => ({
    rule: 'no-distortion',
    message: 'The sweep has no usable column of total harmonic distortion.',
  }),
  thdNotReached: (thd: number, end: number, power: number): Finding => ({
    rule: 'thd-not-reached',
    message: `Distortion does not rise through ${percent(thd, 3)}: the sweep ends at ${watts(power)} with ${percent(end, 3)}.`,
    hint: 'Measure to higher power.',
  }),
  thdAlwaysAbove: (thd: number, start: number, power: number): Finding => ({
    rule: 'thd-always-above',
    message: `Distortion does not rise through ${percent(thd, 3)}: it is ${percent(start, 3)} already where the sweep begins, at ${watts(power)}.`,
    hint: 'Measure from lower power.',
  }),
  powerOutsideSweep: (power: number, low: number, high: number): Finding => ({
    rule: 'power-outside-sweep',
    message: `The sweep runs from ${watts(low)} to ${watts(high)} and says nothing about ${watts(power)}.`,
    hint: 'Nothing is extrapolated; measure a point on either side.',
  }),
};
