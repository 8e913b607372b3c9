import type { Definition } from '../methods/definition.ts';

const plain = (unit: string, digits = 3): Pick<Definition, 'display' | 'unit' | 'digits'> => ({
  display: 'quantity',
  unit,
  digits,
});

const edge = (side: 'low' | 'high', percent: number): Definition => ({
  name: side === 'low' ? `THD above ${percent} % below` : `THD above ${percent} % beyond`,
  meaning: `Everything measured ${side === 'low' ? 'below' : 'above'} this frequency has more than ${percent} % THD.`,
  ...plain('Hz'),
  better: side === 'low' ? 'lower' : 'higher',
  method: 'distortion-rise',
});

const slope = (name: string): Definition => ({
  name,
  meaning:
    'Decibels that the ratio rises for each decibel of level, over the range where it runs straight above the noise.',
  display: 'plain',
  unit: 'dB/dB',
  digits: 3,
  better: null,
  method: 'distortion-law',
});

/** Figures of sweeps that rest on more than one place of the sweep, and of impedances. */
export const sweepDefinitions: Readonly<Record<string, Definition>> = {
  'thd-mid-band': {
    name: 'THD in the middle of the band',
    meaning: 'Geometric mean from 400 Hz to 2 kHz over the logarithm of frequency.',
    display: 'percent',
    unit: '1',
    digits: 3,
    better: 'lower',
    method: 'distortion-rise',
  },
  'thd-onset': {
    name: 'Low-frequency rise of THD',
    meaning:
      'Everything measured below this frequency has more than twice the THD of the middle of the band.',
    ...plain('Hz'),
    better: 'lower',
    method: 'distortion-rise',
  },
  'low-edge-1-percent': edge('low', 1),
  'low-edge-3-percent': edge('low', 3),
  'low-edge-10-percent': edge('low', 10),
  'high-edge-1-percent': edge('high', 1),
  'high-edge-3-percent': edge('high', 3),
  'high-edge-10-percent': edge('high', 10),
  'clipping-onset': {
    name: 'Onset of clipping',
    meaning:
      'Power from which THD stays more than half as much again above what its laws at lower power foretell.',
    ...plain('W'),
    better: 'higher',
    method: 'clipping-onset',
  },
  'gain-fall': {
    name: 'Power at a gain 0.5 dB down',
    meaning:
      'Output power at which the gain has fallen for good by half a decibel from that of small signals.',
    ...plain('W'),
    better: 'higher',
    method: 'clipping-onset',
  },
  'thd-slope': slope('Slope of THD against level'),
  'rated-impedance': {
    name: 'Rated impedance supported',
    meaning: 'Largest of 4, 6, 8 and 16 Ω of which the smallest modulus is at least 80 %.',
    ...plain('Ω', 1),
    better: null,
    method: 'rated-impedance',
  },
  'resonance-frequency': {
    name: 'Resonance',
    meaning: 'Lowest hill of the modulus, where the phase passes zero if it was measured.',
    ...plain('Hz'),
    better: null,
    method: 'resonance',
  },
  'resonance-impedance': {
    name: 'Impedance at resonance',
    meaning: 'Modulus at the resonance.',
    ...plain('Ω'),
    better: null,
    method: 'resonance',
  },
  'primary-inductance': {
    name: 'Primary inductance',
    meaning: 'From the rise of the impedance with frequency while the secondary is open.',
    ...plain('H'),
    better: 'higher',
    method: 'inductance',
  },
  'leakage-inductance': {
    name: 'Leakage inductance',
    meaning: 'From the rise of the impedance with frequency while the secondary is shorted.',
    ...plain('H'),
    better: 'lower',
    method: 'inductance',
  },
  'output-impedance-at-1khz': {
    name: 'Output impedance at 1 kHz',
    meaning: 'Modulus of what a loudspeaker sees looking back into the amplifier.',
    ...plain('Ω'),
    better: null,
    method: 'output-impedance',
  },
  'output-impedance-largest': {
    name: 'Largest output impedance',
    meaning: 'Largest modulus among the frequencies of the sweep.',
    ...plain('Ω'),
    better: null,
    method: 'output-impedance',
  },
  'damping-factor-at-1khz': {
    name: 'Damping factor at 1 kHz',
    meaning: 'Rated load over the modulus of the output impedance.',
    ...plain('1'),
    better: null,
    method: 'output-impedance',
  },
  'largest-response-error': {
    name: 'Largest response error at the loudspeaker',
    meaning:
      'Largest change of the response when the loudspeaker takes the place of the rated load, 0 dB at 1 kHz.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: 'lower',
    method: 'loudspeaker-response',
  },
  'response-error-range': {
    name: 'Range of the response error',
    meaning:
      'Highest less lowest change of the response when the loudspeaker takes the place of the rated load.',
    display: 'decibel',
    unit: 'dB',
    digits: 3,
    better: 'lower',
    method: 'loudspeaker-response',
  },
};

/** Figures of which there is one for each order or each stated power; null for any other id. */
export function sweepFamily(id: string, harmonicName: (order: number) => string): Definition | null {
  const [, order] = /^harmonic-(\d+)-slope$/.exec(id) ?? [];
  if (order !== undefined) return slope(`Slope of the ${harmonicName(Number(order)).toLowerCase()}`);
  const [, number, prefix] = /^thd-at-([\d.]+)([mk]?)w$/.exec(id) ?? [];
  if (number === undefined) return null;
  return {
    name: `THD at ${number} ${prefix}W`,
    meaning: 'Read between the two neighbouring points of the sweep.',
    display: 'percent',
    unit: '1',
    digits: 3,
    better: 'lower',
    method: 'between-points',
  };
}

/** The id of THD at a stated power: `thd-at-250mw`. */
export function thdAtPowerId(powerW: number): string {
  const [factor, prefix] = powerW < 1 ? [1e3, 'm'] : powerW < 1e3 ? [1, ''] : [1e-3, 'k'];
  return `thd-at-${Number((powerW * factor).toPrecision(6))}${prefix}w`;
}
