import fc from 'fast-check';
import { expect, test } from 'vitest';
import { parseQuantity, printNumber, printQuantity, quantityText } from '../../src/quantity/index.ts';

test.each([
  [4700, 'Ω', '4.70\u00a0kΩ'],
  [0.048, 'A', '48.0\u00a0mA'],
  [2.2e-7, 'F', '220\u00a0nF'],
  [999.96, 'Hz', '1.00\u00a0kHz'],
  [-0.5, 'dB', '\u22120.500\u00a0dB'],
  [0, 'V', '0\u00a0V'],
  [12, '', '12.0'],
])('%s %s prints as %s', (value, unit, text) => {
  expect(quantityText(value, unit)).toBe(text);
});

test('printNumber keeps the significant digits asked for and never a negative zero', () => {
  expect(printNumber(0.0047912, 3)).toBe('0.00479');
  expect(printNumber(-0, 3)).toBe('0');
  expect(printNumber(123456, 3)).toBe('123000');
});

test('what printQuantity prints, parseQuantity reads back to the digits printed', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-9, max: 1e9, noNaN: true }), (value) => {
      const { number, unit } = printQuantity(value, 'Ω', 6);
      const reading = parseQuantity(`${number} ${unit}`, 'resistance');
      const back = 'quantity' in reading ? reading.quantity.value : Number.NaN;
      // Six significant digits: half a unit of the sixth is at most 5e-6 of the value.
      expect(Math.abs(back / value - 1)).toBeLessThanOrEqual(5.1e-6);
    }),
  );
});
