import { type Definition, type FigureDefinition, ratio } from './methods/definition.ts';
import type { MethodId } from './methods/methods.ts';
import { stageDefinitions } from './stage/stage-definitions.ts';
import { sweepDefinitions, sweepFamily } from './sweep/sweep-definitions.ts';
import { intermodulationFamily, twoToneDefinitions } from './two-tone/two-tone-definitions.ts';
import { waveformDefinitions } from './waveform/waveform-definitions.ts';

const frequency = (
  name: string,
  meaning: string,
  better: FigureDefinition['better'],
  method: MethodId = 'response-limits',
): Definition => ({ name, meaning, display: 'quantity', unit: 'Hz', digits: 3, better, method });

const power = (name: string, meaning: string): Definition => ({
  name,
  meaning,
  display: 'quantity',
  unit: 'W',
  digits: 3,
  better: 'higher',
  method: 'power-at-distortion',
});

const measured = (name: string, meaning: string, method: MethodId, unit = ''): Definition => ({
  name,
  meaning,
  display: 'quantity',
  unit,
  digits: 4,
  better: null,
  method,
});

const definitions: Readonly<Record<string, Definition>> = {
  'fundamental-frequency': {
    ...measured('Fundamental frequency', 'Frequency of the strongest sine in the record.', 'sine-fit', 'Hz'),
    digits: 6,
  },
  'fundamental-level': measured('Fundamental', 'rms value of the fundamental.', 'sine-fit'),
  rms: measured('Total rms', 'rms value of all samples, the direct part included.', 'sine-fit'),
  dc: measured('Direct part', 'Mean that the fit gives beside the sines.', 'sine-fit'),
  noise: {
    ...measured(
      'Residual noise',
      'rms of what is left after the direct part, fundamental and counted harmonics.',
      'noise',
    ),
    better: 'lower',
    digits: 3,
  },
  thd: ratio('THD', 'Root sum of squares of the counted harmonics over the fundamental.', 'thd'),
  'thd-plus-noise': ratio(
    'THD+N',
    'Everything in the band except the fundamental, over the fundamental.',
    'thd-plus-noise',
  ),
  sinad: {
    name: 'SINAD',
    meaning: 'Fundamental over everything else in the band of THD+N except the direct part.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: 'higher',
    method: 'sinad',
  },
  ...waveformDefinitions,
  ...twoToneDefinitions,
  'level-at-1khz': measured(
    'Level at 1 kHz',
    'Reference of the response, read between the two neighbouring points.',
    'response-limits',
  ),
  'gain-at-1khz': {
    name: 'Gain at 1 kHz',
    meaning: 'Output over input at the reference of the response.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: null,
    method: 'response-limits',
  },
  'lower-limit-1db': frequency(
    'Lower −1 dB limit',
    'Below this frequency the level is more than 1 dB under that at 1 kHz.',
    'lower',
  ),
  'upper-limit-1db': frequency(
    'Upper −1 dB limit',
    'Above this frequency the level is more than 1 dB under that at 1 kHz.',
    'higher',
  ),
  'lower-limit-3db': frequency(
    'Lower −3 dB limit',
    'Below this frequency the level is more than 3 dB under that at 1 kHz.',
    'lower',
  ),
  'upper-limit-3db': frequency(
    'Upper −3 dB limit',
    'Above this frequency the level is more than 3 dB under that at 1 kHz.',
    'higher',
  ),
  'largest-deviation': {
    name: 'Largest deviation',
    meaning: 'Largest distance of the level from that at 1 kHz within the stated band.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: 'lower',
    method: 'response-limits',
  },
  'thd-at-1khz': ratio(
    'THD at 1 kHz',
    'Read between the two neighbouring points of the sweep.',
    'between-points',
  ),
  'power-at-1-percent': power('Power at 1 % THD', 'Output power at the last rise of THD through 1 %.'),
  'power-at-3-percent': power('Power at 3 % THD', 'Output power at the last rise of THD through 3 %.'),
  'power-at-10-percent': power('Power at 10 % THD', 'Output power at the last rise of THD through 10 %.'),
  'largest-power': power(
    'Largest power measured',
    'Highest output power in the sweep, whatever its distortion.',
  ),
  'thd-at-1w': ratio(
    'THD at 1 W',
    'Read between the two neighbouring points of the sweep.',
    'between-points',
  ),
  'impedance-minimum': measured('Impedance minimum', 'Smallest modulus in the sweep.', 'impedance', 'Ω'),
  'impedance-minimum-frequency': frequency(
    'Frequency of the minimum',
    'Where the modulus is smallest.',
    null,
    'impedance',
  ),
  'impedance-maximum': measured('Impedance maximum', 'Largest modulus in the sweep.', 'impedance', 'Ω'),
  'impedance-maximum-frequency': frequency(
    'Frequency of the maximum',
    'Where the modulus is largest.',
    null,
    'impedance',
  ),
  ...sweepDefinitions,
  ...stageDefinitions,
};

const ordinal = [
  '',
  'Fundamental',
  'Second',
  'Third',
  'Fourth',
  'Fifth',
  'Sixth',
  'Seventh',
  'Eighth',
  'Ninth',
  'Tenth',
];

/** "Second harmonic"; "12th harmonic" above the tenth. */
export function harmonicName(order: number): string {
  return `${ordinal[order] ?? `${order}th`} harmonic`;
}

/** The definition of a figure, or null for an id that the registry does not know. */
export function definitionOf(id: string): FigureDefinition | null {
  const known = Object.hasOwn(definitions, id) ? definitions[id] : undefined;
  if (known) return { id, ...known };
  const ofSweep = sweepFamily(id, harmonicName);
  if (ofSweep) return { id, ...ofSweep };
  const line = intermodulationFamily(id);
  if (line) return { id, ...line };
  const [, order, at] = /^harmonic-(\d+)(-at-1khz)?$/.exec(id) ?? [];
  if (order === undefined) return null;
  const name = harmonicName(Number(order));
  return at
    ? {
        id,
        ...ratio(
          `${name} at 1 kHz`,
          'Read between the two neighbouring points of the sweep.',
          'between-points',
        ),
      }
    : { id, ...ratio(name, `Level at ${order} times the fundamental, over the fundamental.`, 'harmonics') };
}

/** Every figure with a name of its own, in reading order; harmonics are a family and stand for themselves. */
export function allDefinitions(): FigureDefinition[] {
  return Object.entries(definitions).map(([id, definition]) => ({ id, ...definition }));
}
