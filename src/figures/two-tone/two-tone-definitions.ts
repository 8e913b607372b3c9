import { type Definition, ratio } from '../methods/definition.ts';

const tone = (name: string, meaning: string, unit: string, digits: number): Definition => ({
  name,
  meaning,
  display: 'quantity',
  unit,
  digits,
  better: null,
  method: 'two-tones',
});

const contested = (name: string, meaning: string): Definition => ({
  ...ratio(name, meaning, 'contested-weightings'),
  contested: true,
});

/** Figures of two-tone captures, and the contested weightings of harmonics. */
export const twoToneDefinitions: Readonly<Record<string, Definition>> = {
  'modulation-second': ratio(
    'Modulation distortion, 2nd order (sum of sidebands re upper tone)',
    'Levels of f2 − f1 and f2 + f1 added, over the upper tone f2.',
    'modulation-distortion',
  ),
  'modulation-third': ratio(
    'Modulation distortion, 3rd order (sum of sidebands re upper tone)',
    'Levels of f2 − 2f1 and f2 + 2f1 added, over the upper tone f2.',
    'modulation-distortion',
  ),
  'modulation-total': ratio(
    'Modulation distortion, both orders (root sum of squares of the two sums)',
    'Root sum of squares of the second- and the third-order sums, over the upper tone.',
    'modulation-distortion',
  ),
  'modulation-sidebands': ratio(
    'Modulation distortion, four sidebands (root sum of squares of the lines)',
    'Root sum of squares of the four sidebands themselves, over the upper tone: 3 dB less where sidebands are in equal pairs.',
    'modulation-distortion',
  ),
  'difference-second': ratio(
    'Difference-frequency distortion, 2nd order (re sum of tones)',
    'Level of f2 − f1 over the sum of the levels of both tones.',
    'difference-frequency-distortion',
  ),
  'difference-second-one-tone': ratio(
    'Difference-frequency distortion, 2nd order (re one tone)',
    'Level of f2 − f1 over the mean level of the two tones: 6.02 dB more than re their sum.',
    'difference-frequency-distortion',
  ),
  'difference-third': ratio(
    'Difference-frequency distortion, 3rd order (sum of lines re sum of tones)',
    'Levels of 2f1 − f2 and 2f2 − f1 added, over the sum of the levels of both tones.',
    'difference-frequency-distortion',
  ),
  'difference-third-rss': ratio(
    'Difference-frequency distortion, 3rd order (root sum of squares re sum of tones)',
    'Root sum of squares of 2f1 − f2 and 2f2 − f1, over the sum of the levels of both tones.',
    'difference-frequency-distortion',
  ),
  'lower-tone-frequency': tone('Lower tone f1', 'Frequency of the lower of the two tones.', 'Hz', 6),
  'lower-tone-level': tone('Level of f1', 'rms value of the lower tone.', '', 4),
  'upper-tone-frequency': tone('Upper tone f2', 'Frequency of the upper of the two tones.', 'Hz', 6),
  'upper-tone-level': tone('Level of f2', 'rms value of the upper tone.', '', 4),
  'two-tone-noise': {
    ...tone(
      'Residual beside tones and lines',
      'rms of what is left after the direct part, both tones and every fitted line.',
      '',
      3,
    ),
    better: 'lower',
  },
  'thd-weighted-rma': contested(
    'Harmonics weighted by n/2',
    'Root sum of squares of the counted harmonics, each first multiplied by half its order, over the fundamental.',
  ),
  'thd-weighted-shorter': contested(
    'Harmonics weighted by n²/4',
    'Root sum of squares of the counted harmonics, each first multiplied by a quarter of the square of its order, over the fundamental.',
  ),
};

/** Id of the figure of one intermodulation line: "f2 − f1" becomes `intermodulation-f2-minus-f1`. */
export function intermodulationId(name: string): string {
  return `intermodulation-${name.replace(' − ', '-minus-').replace(' + ', '-plus-')}`;
}

/** The definition of a single intermodulation line; null for another id. */
export function intermodulationFamily(id: string): Definition | null {
  const [, one, sign, other] = /^intermodulation-([2-5]?f[12])-(plus|minus)-([2-5]?f[12])$/.exec(id) ?? [];
  if (one === undefined || other === undefined) return null;
  const name = `${one} ${sign === 'plus' ? '+' : '−'} ${other}`;
  return ratio(
    `Line ${name} (re upper tone)`,
    `Level at ${name}, over the upper tone f2.`,
    'intermodulation-lines',
  );
}
