import { printNumber, quantityText } from '../../quantity/index.ts';
import type { Finding } from '../messages.ts';

const percent = (ratio: number) => `${printNumber(100 * ratio, 2)} %`;
const declare = 'State the two frequencies with the capture, for example tones: [60 Hz, 7 kHz].';

/** Every sentence that the signal room says about a two-tone record. */
export const twoToneMessages = {
  noTwoTones: (): Finding => ({
    rule: 'no-two-tones',
    message:
      'No two lines stand clear of the noise around them, so there are no tones to refer intermodulation to.',
    hint: 'Check both generators, and that the record holds two steady sines, two cycles of each at least.',
  }),
  declaredToneMissing: (): Finding => ({
    rule: 'declared-tone-missing',
    message:
      'A declared tone is not found: no line within one per cent of its frequency stands clear of the noise.',
    hint: 'Check the frequencies of the declaration, and the sampling rate.',
  }),
  tooFewCycles: (cycles: number): Finding => ({
    rule: 'too-few-cycles',
    message: `The record holds about ${printNumber(cycles, 2)} cycles of the lower tone; two are needed to tell its combinations apart.`,
    hint: 'Record for a longer time.',
  }),
  tonesTooClose: (cycles: number): Finding => ({
    rule: 'tones-too-close',
    message: `The two tones differ by ${printNumber(cycles, 2)} cycles over the record; two are needed to tell their combinations apart.`,
    hint: 'Record for a longer time.',
  }),
  aboveHalfRate: (): Finding => ({
    rule: 'tone-above-half-rate',
    message: 'The upper tone lies beyond half the sampling rate.',
    hint: 'Check the declared frequency and the sampling rate.',
  }),
  oneToneOnly: (ratio: number): Finding => ({
    rule: 'one-tone-only',
    message: `The strongest line is ${printNumber(ratio, 2)} times the second strongest, which may as well be hum or a harmonic: two tones are not clear.`,
    hint: declare,
  }),
  harmonicPair: (multiple: number): Finding => ({
    rule: 'harmonic-pair',
    message: `The second line stands at ${multiple} times the first and may be its harmonic: two tones are not clear.`,
    hint: declare,
  }),
  thirdLine: (ratio: number): Finding => ({
    rule: 'third-line',
    message: `A third line has ${percent(ratio)} of the weaker tone: which two lines are the tones is not clear.`,
    hint: declare,
  }),
  unsteadyTone: (which: string, wander: number): Finding => ({
    rule: 'unsteady-tone',
    message: `The ${which} tone is not one steady sine: its level and phase wander by ${percent(wander)} of its amplitude over the record.`,
    hint: 'Let generators and amplifier settle, or use a shorter part of the record.',
  }),
  noPattern: (tones: string, ratio: number): Finding => ({
    rule: 'no-two-tone-pattern',
    message: `Tones of ${tones} with a ratio of levels of ${printNumber(ratio, 3)} to 1 are neither those of modulation distortion (4 to 1, wide apart) nor of difference-frequency distortion (equal, close together); only the lines are given.`,
  }),
  linesLost: (names: string, why: string): Finding => ({
    rule: 'intermodulation-line-lost',
    message: `${names} ${why}.`,
  }),
  nothingAboveNoise: (): Finding => ({
    rule: 'intermodulation-below-noise',
    message: 'No intermodulation line can be told from the noise; the intervals say how much there may be.',
    hint: 'A longer record lowers the noise in each line.',
  }),
  otherPattern: (needed: string): Finding => ({
    rule: 'other-two-tone-pattern',
    message: `The tones are not those of this figure: it needs ${needed}.`,
  }),
};

/** Frequencies of two tones as text: "60 Hz and 7 kHz". */
export const tonesText = (lowerHz: number, upperHz: number) =>
  `${quantityText(lowerHz, 'Hz', 5)} and ${quantityText(upperHz, 'Hz', 5)}`;
