import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  cosineAmplitudes,
  fiveOrdinates,
  harmonicRatios,
  threeOrdinates,
  totalDistortion,
} from '../../src/load/index.ts';
import { check, checks } from './support.ts';

const transfer = (coefficients: readonly number[]) => (x: number) =>
  coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);

const halfPeriod = (f: (x: number) => number, steps = 64) =>
  Array.from({ length: steps + 1 }, (_, k) => f(Math.cos((Math.PI * k) / steps)));

const coefficients = (count: number) =>
  fc.array(fc.double({ min: -10, max: 10, noNaN: true }), { minLength: count, maxLength: count });

describe('five ordinates', () => {
  const { given, expected } = check<
    { ordinates: [number, number, number, number, number] },
    { amplitudes: number[]; ratios: number[]; thdRatio: number }
  >('five-ordinates');

  test('104, 81.125, 60, 42.125, 32 mA give mean 63.75, 37, 4, −1 and 0.25 mA', () => {
    fiveOrdinates(...given.ordinates).forEach((amplitude, order) => {
      expect(amplitude).toBeCloseTo(expected.amplitudes[order] ?? Number.NaN, 12); // exact apart from rounding
    });
  });

  test('and 10.811 %, 2.703 % and 0.676 %, 11.164 % in all', () => {
    const ratios = harmonicRatios(fiveOrdinates(...given.ordinates))?.map(({ ratio }) => ratio) ?? [];
    ratios.forEach((ratio, index) => {
      expect(ratio).toBeCloseTo(expected.ratios[index] ?? Number.NaN, 5); // digits printed
    });
    expect(totalDistortion(ratios)).toBeCloseTo(expected.thdRatio, 5);
  });

  test('agree with the projection for every transfer curve of the fourth degree', () => {
    fc.assert(
      fc.property(coefficients(5), (polynomial) => {
        const f = transfer(polynomial);
        const projected = cosineAmplitudes(halfPeriod(f));
        fiveOrdinates(f(1), f(0.5), f(0), f(-0.5), f(-1)).forEach((amplitude, order) => {
          expect(amplitude).toBeCloseTo(projected[order] ?? Number.NaN, 11); // rounding of values up to 50
        });
      }),
    );
  });
});

describe('three ordinates', () => {
  test.each(checks.filter(({ id }) => id.startsWith('second-harmonic-')))(
    '$id ($source)',
    ({ given, expected }) => {
      const { maximum, minimum, rest } = given as { maximum: number; minimum: number; rest: number };
      const [second] = harmonicRatios(threeOrdinates(maximum, rest, minimum)) ?? [];
      expect(second?.ratio).toBeCloseTo(expected.secondRatio as number, 4); // three digits printed
    },
  );

  test('agree with the projection for every transfer curve of the second degree', () => {
    fc.assert(
      fc.property(coefficients(3), (polynomial) => {
        const f = transfer(polynomial);
        const projected = cosineAmplitudes(halfPeriod(f));
        threeOrdinates(f(1), f(0), f(-1)).forEach((amplitude, order) => {
          expect(amplitude).toBeCloseTo(projected[order] ?? Number.NaN, 11);
        });
      }),
    );
  });
});

describe('projection', () => {
  test('finds the amplitudes of cos(nθ) to the last digits', () => {
    const wanted = [3, 2, -0.5, 0.25, -0.125, 0.0625, 0.03, -0.01];
    const samples = Array.from({ length: 65 }, (_, k) =>
      wanted.reduce((sum, amplitude, order) => sum + amplitude * Math.cos((order * Math.PI * k) / 64), 0),
    );
    cosineAmplitudes(samples).forEach((amplitude, order) => {
      expect(amplitude).toBeCloseTo(wanted[order] ?? Number.NaN, 13);
    });
  });

  test('the sign of a harmonic is that against the fundamental at the crest', () => {
    const upright = harmonicRatios([0, 2, 0.2, -0.1]);
    const inverted = harmonicRatios([0, -2, 0.2, -0.1]);
    expect(upright).toEqual([
      { order: 2, ratio: 0.1, sign: 1 },
      { order: 3, ratio: 0.05, sign: -1 },
    ]);
    expect(inverted?.map(({ sign }) => sign)).toEqual([-1, 1]);
  });

  test('there are no ratios without a fundamental', () => {
    expect(harmonicRatios([5, 0, 1])).toBeNull();
    expect(harmonicRatios([5, 1e-12, 1])).toBeNull();
  });
});

describe('total harmonic distortion', () => {
  test('10, 4 and 2 % of 2.5 V are 0.25, 0.1 and 0.05 V (Boylestad 12.13) and 10.954 % in all (12.14)', () => {
    const { given, expected } = check<{ amplitudes: number[] }, { ratios: number[] }>('harmonic-percentages');
    const ratios = harmonicRatios(given.amplitudes)?.map(({ ratio }) => ratio) ?? [];
    expect(ratios).toHaveLength(3);
    ratios.forEach((ratio, index) => {
      expect(ratio).toBeCloseTo(expected.ratios[index] ?? Number.NaN, 12);
    });
    const { thdRatio } = check<unknown, { thdRatio: number }>('thd-10-4-2').expected;
    expect(totalDistortion(ratios)).toBeCloseTo(thdRatio, 5);
  });

  test('of 10, 2 and 1 % is 10.247 %, with 64.672 W where 64 W are at the fundamental (Boylestad 12.16, exact)', () => {
    const { given, expected } = check<
      { ratios: number[]; fundamentalA: number; loadOhm: number },
      { thdRatio: number; powerW: number }
    >('power-with-distortion');
    const thdRatio = totalDistortion(given.ratios);
    const fundamentalW = (given.fundamentalA ** 2 * given.loadOhm) / 2;
    expect(thdRatio).toBeCloseTo(expected.thdRatio, 5);
    expect((1 + thdRatio ** 2) * fundamentalW).toBeCloseTo(expected.powerW, 3); // five digits; 64.64 would fail
  });
});
