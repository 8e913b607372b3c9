import { expect, test } from 'vitest';
import { parsePrice, priceText, sumOfPrices, timesPrice } from '../../src/quantity/index.ts';

test.each([
  ['85.00 EUR', 85, 'EUR', 2],
  ['85 EUR', 85, 'EUR', 0],
  ['EUR 85.5', 85.5, 'EUR', 1],
  ['€12', 12, 'EUR', 0],
  ['12,50 €', 12.5, 'EUR', 2],
  ['£ 3.20', 3.2, 'GBP', 2],
  ['$4.00', 4, '$', 2],
  ['1200 JPY', 1200, 'JPY', 0],
  [' 0.045 USD ', 0.045, 'USD', 3],
])('"%s" is an amount with its currency', (text, amount, currency, decimals) => {
  expect(parsePrice(text)).toEqual({ amount, currency, decimals });
});

test.each([
  '',
  '85',
  'EUR',
  'from the drawer',
  '1,200 EUR',
  '-3 EUR',
  '1.2.3 EUR',
  '85 eur',
  '3 EUR each',
  '€ 85 €',
])('"%s" is no price that can be added', (text) => {
  expect(parsePrice(text)).toBeNull();
});

test('prices are summed by currency, never across them, in the order of their first appearance', () => {
  const prices = ['85.00 EUR', '3 USD', '0.5 EUR', '4.25 USD'].flatMap((text) => parsePrice(text) ?? []);
  expect(sumOfPrices(prices).map(priceText)).toEqual(['85.50\u00a0EUR', '7.25\u00a0USD']);
});

test('a hundred amounts of ten cents are ten, printed with their decimals', () => {
  const ten = parsePrice('0.10 EUR');
  // The sum of a hundred binary tenths is off by less than 1e-13, which two decimals do not show.
  expect(
    sumOfPrices(Array.from({ length: 100 }, () => ten).flatMap((one) => one ?? [])).map(priceText),
  ).toEqual(['10.00\u00a0EUR']);
});

test('a price times a quantity keeps its currency and decimals', () => {
  const price = parsePrice('1.20 EUR');
  expect(price && priceText(timesPrice(price, 2.5))).toBe('3.00\u00a0EUR');
});
