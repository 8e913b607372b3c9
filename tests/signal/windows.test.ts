import { describe, expect, it } from 'vitest';
import { cosineWindow, type WindowName, windowNames, windowValues } from '../../src/signal/index.ts';
import { lossBesideLine } from '../../src/signal/noise/scalloping.ts';
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
    // In closed form, to the eight decimals that the table gives.
    expect(lossBesideLine(window, 0.5)).toBeCloseTo(check('windows', `${name}: loss at half a bin`), 7);
    expect(lossBesideLine(window, 0.25)).toBeCloseTo(-responseDb(values, 0.25), 6);
  });

  it('deviates within half a bin by no more than its table says', () => {
    const found = Array.from({ length: 501 }, (_, i) => responseDb(values, i / 1000));
    const largest = found.reduce((most, db) => (Math.abs(db) > Math.abs(most) ? db : most), 0);
    // The table gives 1e-8 dB; steps of a thousandth of a bin miss a flat maximum by less than 1e-7 dB.
    expect(largest).toBeCloseTo(check('windows', `${name}: largest deviation within half a bin`), 6);
  });
});

/** Bins between the two points at which a window's response is so many decibels down. */
function bandwidth(values: Float64Array, decibels: number): number {
  let [inside, outside] = [0, 8];
  for (let i = 0; i < 40; i++) {
    const middle = (inside + outside) / 2;
    if (responseDb(values, middle) > -decibels) inside = middle;
    else outside = middle;
  }
  return 2 * inside;
}

describe.each(windowNames)('the main lobe of the %s window', (name: WindowName) => {
  const values = windowValues(cosineWindow(name), length);

  it('is as wide as its table says', () => {
    // Six decimals are given, for endless windows; at 4096 samples the rectangular one differs by some 1e-7.
    const [half, quarter] = [10 * Math.log10(2), 20 * Math.log10(2)];
    expect(bandwidth(values, half)).toBeCloseTo(check('windows', `${name}: half-power bandwidth in bins`), 5);
    expect(bandwidth(values, quarter)).toBeCloseTo(
      check('windows', `${name}: half-amplitude bandwidth in bins`),
      5,
    );
  });
});

it.each(['HFT90D', 'HFT95'] as const)('%s has the published width at 3 dB', (name) => {
  // Four decimals are printed, of which three hold: the widths compute to 3.8321 and 3.7592.
  expect(bandwidth(windowValues(cosineWindow(name), length), 3)).toBeCloseTo(
    check('windows', `${name}: published 3 dB bandwidth`),
    3,
  );
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

describe.each(windowNames.filter((name) => name !== 'HFT248D'))(
  'the highest side lobe of the %s window',
  (name) => {
    const window = cosineWindow(name);
    const values = windowValues(window, length);

    it('is as high as its table says', () => {
      // Six bins hold the highest lobe of each. Steps of 1/100 bin miss a maximum by 1e-3 dB at most; 4096 samples differ
      // by 2e-3 dB from the limit that the table gives. Sums in doubles, 144 dB down, leave one decimal of HFT144D.
      const lobes = Array.from({ length: 600 }, (_, i) =>
        responseDb(values, window.coefficients.length + i / 100),
      );
      const decimals = name === 'HFT144D' ? 1 : 2;
      expect(Math.max(...lobes)).toBeCloseTo(check('windows', `${name}: highest side lobe in dB`), decimals);
    });
  },
);

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
