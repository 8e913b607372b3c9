import { describe, expect, it } from 'vitest';
import { cosineWindow, type WindowName, windowNames, windowValues } from '../../src/signal/index.ts';
import { check, checkList } from './checks.ts';

/** Large enough that the figures, which hold in the limit of long windows, differ by less than the digits checked. */
const length = 4096;

/** Response of a window to a sine a fraction of a bin off its line, in decibels re the line itself. */
function responseDb(values: Float64Array, bins: number): number {
  let [real, imaginary, sum] = [0, 0, 0];
  values.forEach((value, n) => {
    real += value * Math.cos((2 * Math.PI * bins * n) / values.length);
    imaginary += value * Math.sin((2 * Math.PI * bins * n) / values.length);
    sum += value;
  });
  return 20 * Math.log10(Math.hypot(real, imaginary) / sum);
}

const total = (values: Float64Array, power: number) => values.reduce((sum, value) => sum + value ** power, 0);

describe.each(windowNames)('the %s window', (name: WindowName) => {
  const window = cosineWindow(name);
  const values = windowValues(window, length);

  it('has the coherent gain of its table, and its samples have it', () => {
    // The table gives 10 digits and more.
    expect(window.coherentGain).toBeCloseTo(check('windows', `${name}: coherent gain`), 10);
    // Rounding of 4096 additions.
    expect(total(values, 1) / length).toBeCloseTo(window.coherentGain, 12);
  });

  it('has the equivalent noise bandwidth of its table, and its samples have it', () => {
    // The table gives 12 digits and more; the samples' sums are exact up to rounding.
    expect(window.enbwBins).toBeCloseTo(check('windows', `${name}: ENBW`), 11);
    expect((length * total(values, 2)) / total(values, 1) ** 2).toBeCloseTo(window.enbwBins, 11);
  });

  it('loses what its table says half a bin off a line', () => {
    // The table holds for endless windows; at 4096 samples it differs by some 1e-7 dB.
    expect(-responseDb(values, 0.5)).toBeCloseTo(check('windows', `${name}: loss at half a bin`), 6);
  });

  it('deviates within half a bin by no more than its table says', () => {
    const found = Array.from({ length: 501 }, (_, i) => responseDb(values, i / 1000));
    const largest = found.reduce((most, db) => (Math.abs(db) > Math.abs(most) ? db : most), 0);
    // The table gives 1e-8 dB; steps of a thousandth of a bin miss a flat maximum by less than 1e-7 dB.
    expect(largest).toBeCloseTo(check('windows', `${name}: largest deviation within half a bin`), 6);
  });
});

const published: WindowName[] = [
  'Hann',
  'Hamming',
  'Blackman-Harris 92 dB',
  'HFT90D',
  'HFT95',
  'HFT144D',
  'HFT248D',
];

describe.each(published)('the %s window against Heinzel, Rüdiger and Schilling (2002)', (name) => {
  it('agrees to the four decimals printed', () => {
    // Half a unit of the last printed digit: ENBW and flatness have four decimals.
    expect(cosineWindow(name).enbwBins).toBeCloseTo(check('windows', `${name}: published ENBW`), 4);
    const values = windowValues(cosineWindow(name), length);
    const found = Array.from({ length: 101 }, (_, i) => responseDb(values, i / 200));
    const largest = Math.max(...found.map(Math.abs));
    expect(largest).toBeCloseTo(Math.abs(check('windows', `${name}: published flatness`)), 4);
  });
});

describe.each(published.filter((name) => name !== 'HFT248D'))('the side lobes of the %s window', (name) => {
  it('reach what the table of Heinzel, Rüdiger and Schilling says', () => {
    const window = cosineWindow(name);
    const values = windowValues(window, length);
    // Beyond the main lobe, whose first zero lies at one more than the number of cosines.
    const lobes = Array.from({ length: 400 }, (_, i) =>
      responseDb(values, window.coefficients.length + i / 50),
    );
    // One decimal is printed; side lobes of 248 dB are out of reach of sums in doubles, so HFT248D is left out.
    expect(Math.abs(Math.max(...lobes) + check('windows', `${name}: published side lobes`))).toBeLessThan(
      0.06,
    );
  });
});

describe('windowValues', () => {
  it.each(['Hann', 'Hamming', 'Blackman-Harris 92 dB'] as const)(
    '%s agrees with scipy at eight samples',
    (name) => {
      const values = windowValues(cosineWindow(name), 8);
      // scipy prints 16 digits; two of them go to rounding.
      checkList('windows', `${name}: first five of eight`).forEach((value, n) => {
        expect(values[n]).toBeCloseTo(value, 14);
      });
      // Periodic form: sample n and sample 8 − n are equal.
      [1, 2, 3].forEach((n) => {
        expect(values[8 - n]).toBe(values[n]);
      });
    },
  );

  it.each(['rectangular', 'Hann', 'Hamming', 'Blackman', 'Blackman-Harris 92 dB', 'HFT248D'] as const)(
    '%s loses what its table says in the worst case',
    (name) => {
      const loss = -responseDb(windowValues(cosineWindow(name), length), 0.5);
      // Six decimals are printed.
      expect(loss + 10 * Math.log10(cosineWindow(name).enbwBins)).toBeCloseTo(
        check('windows', `${name}: worst-case process loss`),
        5,
      );
    },
  );
});
