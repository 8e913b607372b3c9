import { type Definition, ratio } from '../methods/definition.ts';

const sum = (parity: 'even' | 'odd'): Definition =>
  ratio(
    parity === 'even' ? 'Even harmonics' : 'Odd harmonics',
    `Root sum of squares of the ${parity} harmonics counted, over the fundamental.`,
    'even-odd',
  );

const noise = (name: string, meaning: string, method: Definition['method']): Definition => ({
  name,
  meaning,
  display: 'quantity',
  unit: '',
  digits: 3,
  better: 'lower',
  method,
});

const power = (name: string, meaning: string): Definition => ({
  name,
  meaning,
  display: 'quantity',
  unit: 'W',
  digits: 4,
  better: null,
  method: 'output-power',
});

const bound = (name: string, meaning: string): Definition => ratio(name, meaning, 'added-distortion');

const overNoise = (name: string, meaning: string): Definition => ({
  name,
  meaning,
  display: 'decibel',
  unit: 'dB',
  digits: 3,
  better: 'higher',
  method: 'signal-to-noise',
});

/** Figures of sampled waveforms beyond the fundamental and its total distortion. */
export const waveformDefinitions: Readonly<Record<string, Definition>> = {
  'even-harmonics': sum('even'),
  'odd-harmonics': sum('odd'),
  'crest-factor': {
    name: 'Crest factor',
    meaning: 'Largest distance of a sample from the direct part over the rms value about it.',
    display: 'plain',
    unit: '',
    digits: 4,
    better: null,
    method: 'crest-factor',
  },
  'gain-at-fundamental': {
    name: 'Gain',
    meaning: 'Fundamental of the response over that of the stimulus.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: null,
    method: 'transfer',
  },
  'phase-at-fundamental': {
    name: 'Phase',
    meaning: 'Phase of the response’s fundamental less that of the stimulus’s.',
    display: 'plain',
    unit: '°',
    digits: 3,
    better: null,
    method: 'transfer',
  },
  'added-distortion': bound(
    'Distortion added',
    'What is left of the response’s harmonics when those that came with the stimulus are taken off.',
  ),
  'added-distortion-least': bound(
    'Distortion added, at least',
    'The least that the circuit can have added to the harmonics of its stimulus.',
  ),
  'added-distortion-most': bound(
    'Distortion added, at most',
    'The most that the circuit can have added to the harmonics of its stimulus.',
  ),
  'fundamental-power': power('Power of the fundamental', 'Power of the fundamental in the declared load.'),
  'output-power': power('Output power', 'Power of everything but the direct part in the declared load.'),
  hum: noise(
    'Hum',
    'Root sum of squares of the lines at the mains frequency and its multiples, up to ten.',
    'hum',
  ),
  'band-noise': noise(
    'Noise in the band',
    'rms of noise in the band, without hum and harmonics.',
    'band-noise',
  ),
  'noise-a-weighted': noise(
    'Noise, A-weighted',
    'rms of noise in the band, weighted by curve A, without hum and harmonics.',
    'band-noise',
  ),
  'noise-itu468': noise(
    'Noise, ITU-R BS.468-weighted',
    'rms of noise in the band, weighted by the curve of ITU-R BS.468, without hum and harmonics.',
    'band-noise',
  ),
  'signal-to-noise': overNoise('Signal-to-noise', 'Stated level over the noise in the band.'),
  'signal-to-noise-a-weighted': overNoise(
    'Signal-to-noise, A-weighted',
    'Stated level over the A-weighted noise in the band.',
  ),
};
