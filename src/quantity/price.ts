/** An amount of money in one currency. */
export interface Price {
  amount: number;
  /** A code of three letters such as EUR, or the sign as it was written where that stands for several currencies. */
  currency: string;
  /** Decimals of the amount as it was written. */
  decimals: number;
}

/** Signs that stand for one currency alone. */
const codes: Readonly<Record<string, string>> = { '€': 'EUR', '£': 'GBP' };

const number = String.raw`\d{1,9}(?:\.\d{1,4}|,\d{1,2})?`;
const currency = String.raw`[A-Z]{3}|\p{Sc}`;
const behind = new RegExp(`^(${number})\\s*(${currency})$`, 'u');
const before = new RegExp(`^(${currency})\\s*(${number})$`, 'u');

/** Reads a price as people write it: `85.00 EUR`, `€ 85`, `12,50 €`. Null for anything else. */
export function parsePrice(text: string): Price | null {
  const written = text.trim();
  const [, amount = '', code = ''] = behind.exec(written) ?? swapped(before.exec(written)) ?? [];
  if (amount === '') return null;
  const digits = amount.replace(',', '.');
  return {
    amount: Number(digits),
    currency: codes[code] ?? code,
    decimals: digits.split('.')[1]?.length ?? 0,
  };
}

const swapped = (match: RegExpExecArray | null) => match && [match[0], match[2], match[1]];

/** Sums by currency in the order of their first appearance; currencies are never added to each other. */
export function sumOfPrices(prices: readonly Price[]): Price[] {
  const sums = new Map<string, Price>();
  for (const { amount, currency: code, decimals } of prices) {
    const sum = sums.get(code) ?? { amount: 0, currency: code, decimals: 0 };
    sums.set(code, {
      amount: sum.amount + amount,
      currency: code,
      decimals: Math.max(sum.decimals, decimals),
    });
  }
  return [...sums.values()];
}

/** So many times a price. */
export const timesPrice = (price: Price, count: number): Price => ({
  ...price,
  amount: price.amount * count,
});

/** Prints a price with the currency behind it: "85.00 EUR". */
export function priceText({ amount, currency: code, decimals }: Price): string {
  return `${amount.toFixed(decimals)}\u00a0${code}`;
}
