import type { Dimension } from './units.ts';

const examples: Readonly<Record<Dimension, string>> = {
  voltage: '300 V',
  current: '48 mA',
  resistance: '4.7 kΩ',
  power: '5 W',
  energy: '10 J',
  frequency: '1 kHz',
  time: '20 ms',
  capacitance: '0.22 µF',
  inductance: '30 H',
  transconductance: '5.2 mA/V',
  temperature: '22 °C',
  'thermal resistance': '1.5 K/W',
  mass: '2.4 kg',
  length: '90 mm',
  angle: '45 deg',
  ratio: '43 %',
  level: '-1.5 dB',
};

/** A value of a dimension as a person would write it, for hints. */
export function exampleOf(dimension: Dimension): string {
  return examples[dimension];
}

/** The dimension with its article: "a voltage", "an angle". */
export function aQuantity(dimension: Dimension): string {
  return `${/^[aei]/.test(dimension) ? 'an' : 'a'} ${dimension}`;
}
