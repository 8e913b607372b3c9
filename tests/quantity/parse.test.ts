import { describe, expect, test } from 'vitest';
import { type Dimension, parseQuantity } from '../../src/quantity/index.ts';

const readings: [string, Dimension, number, string][] = [
  ['5 kΩ', 'resistance', 5000, 'Ω'],
  ['5kohm', 'resistance', 5000, 'Ω'],
  ['4k7', 'resistance', 4700, 'Ω'],
  ['4R7', 'resistance', 4.7, 'Ω'],
  ['2M2', 'resistance', 2.2e6, 'Ω'],
  ['100k', 'resistance', 100e3, 'Ω'],
  ['48 mA', 'current', 0.048, 'A'],
  ['0.22 µF', 'capacitance', 0.22e-6, 'F'],
  ['0.22 uF', 'capacitance', 0.22e-6, 'F'],
  ['4n7', 'capacitance', 4.7e-9, 'F'],
  ['-1.5 dB', 'level', -1.5, 'dB'],
  ['\u22121.5 dB', 'level', -1.5, 'dB'],
  ['40 Hz', 'frequency', 40, 'Hz'],
  ['192 kHz', 'frequency', 192e3, 'Hz'],
  ['5.2 mA/V', 'transconductance', 0.0052, 'S'],
  ['43 %', 'ratio', 0.43, '1'],
  ['0.43', 'ratio', 0.43, '1'],
  ['2.4 kg', 'mass', 2.4, 'kg'],
  ['1e-3 V', 'voltage', 0.001, 'V'],
  ['22 °C', 'temperature', 22, '°C'],
];

describe('parseQuantity reads what people write at the bench', () => {
  test.each(readings)('%s as %s', (text, dimension, value, unit) => {
    expect(parseQuantity(text, dimension)).toEqual({
      quantity: { value, unit, dimension, text },
    });
  });
});

const faults: [string, Dimension, RegExp, RegExp][] = [
  ['5 mA', 'voltage', /is a current, but a voltage is expected/, /300 V/],
  ['8', 'resistance', /has no unit; a resistance is expected/, /4\.7 kΩ/],
  ['4,7 kΩ', 'resistance', /comma where a decimal point/, /4\.7 kΩ/],
  ['5 kHZ', 'frequency', /unit "kHZ", which is not known/, /Hz/],
  ['loud', 'power', /"loud" is not a power/, /5 W/],
  ['4k7', 'voltage', /not known/, /./],
  ['', 'voltage', /is not a voltage/, /300 V/],
];

describe('parseQuantity says what was expected', () => {
  test.each(faults)('%s as %s', (text, dimension, message, hint) => {
    const reading = parseQuantity(text, dimension);
    expect('fault' in reading && reading.fault.message).toMatch(message);
    expect('fault' in reading && reading.fault.hint).toMatch(hint);
  });

  test('milli and mega stay apart', () => {
    expect(parseQuantity('1 mΩ', 'resistance')).toMatchObject({ quantity: { value: 0.001 } });
    expect(parseQuantity('1 MΩ', 'resistance')).toMatchObject({ quantity: { value: 1e6 } });
  });
});
