import { describe, expect, it } from 'vitest';
import { project, projectWithMoments } from '../../src/signal/fit/projection.ts';
import { withoutLines } from '../../src/signal/fit/residual.ts';
import { exactPower, paddedPower, transformSize } from '../../src/signal/fit/transform.ts';
import { trigonometricSums } from '../../src/signal/fit/trigonometric-sums.ts';
import { checkList } from './checks.ts';
import { whiteNoise } from './signals.ts';

const lengths = [5, 6, 7, 8, 100, 101, 1000];

function directPower(values: Float64Array, line: number): number {
  let [real, imaginary] = [0, 0];
  values.forEach((value, n) => {
    const angle = (2 * Math.PI * ((line * n) % values.length)) / values.length;
    real += value * Math.cos(angle);
    imaginary += value * Math.sin(angle);
  });
  return (real * real + imaginary * imaginary) / values.length;
}

describe('paddedPower', () => {
  it('gives the squared moduli of the transform of 1, 2, 3, 4, over N', () => {
    const power = paddedPower(Float64Array.of(1, 2, 3, 4), 4);
    // Small whole numbers: exact but for the rounding of a few operations.
    checkList('sine-fit', 'DFT of 1, 2, 3, 4: squared moduli of lines 0 to 2').forEach((square, line) => {
      expect(4 * (power[line] ?? 0)).toBeCloseTo(square, 12);
    });
  });

  it('fills a record up with zeros without changing the lines that both lengths have', () => {
    const values = whiteNoise(64, 1, 1);
    const [plain, padded] = [paddedPower(values, 64), paddedPower(values, 256)];
    // The same sums in another order.
    plain.forEach((power, line) => {
      expect(padded[4 * line]).toBeCloseTo(power, 11);
    });
  });
});

describe.each(lengths)('exactPower of %i samples', (length) => {
  const values = whiteNoise(length, 1, length);

  it("gives the record's own lines as the sum by definition does", () => {
    const power = exactPower(values);
    expect(power).toHaveLength(Math.floor(length / 2) + 1);
    // Rounding of transforms up to 2048 long.
    power.forEach((found, line) => {
      expect(found).toBeCloseTo(directPower(values, line), 11);
    });
  });

  it("sums to the record's energy (Parseval)", () => {
    const power = exactPower(values);
    const twice = power.reduce((sum, value) => sum + 2 * value, 0);
    const own = (power[0] ?? 0) + (length % 2 === 0 ? (power.at(-1) ?? 0) : 0);
    const energy = values.reduce((sum, value) => sum + value * value, 0);
    // Relative rounding.
    expect((twice - own) / energy).toBeCloseTo(1, 12);
  });
});

describe('transformSize', () => {
  it('is the next power of two, or the length itself where it is one', () => {
    expect([4, 5, 1024, 1025, 2500].map((length) => transformSize(length))).toEqual([4, 8, 1024, 2048, 4096]);
    expect(transformSize(2500, 2)).toBe(8192);
  });
});

describe.each([...lengths, 127, 128, 129, 5000])('a record of %i samples in blocks', (length) => {
  const values = whiteNoise(length, 1, length + 1);
  const middle = (length - 1) / 2;
  const angles = [0.7, 0.001, 3.1];

  it('projects as the sums by definition do, with time counted from its middle', () => {
    const found = projectWithMoments(values, angles);
    angles.forEach((angle, line) => {
      const sums = { cosine: 0, sine: 0, cosineMoment: 0, sineMoment: 0 };
      values.forEach((value, n) => {
        const m = n - middle;
        sums.cosine += value * Math.cos(angle * m);
        sums.sine += value * Math.sin(angle * m);
        sums.cosineMoment += value * m * Math.cos(angle * m);
        sums.sineMoment += value * m * Math.sin(angle * m);
      });
      // Sums of up to 5000 terms of some units; moments are up to 2500 times as large.
      expect(found[line]?.cosine).toBeCloseTo(sums.cosine, 10);
      expect(found[line]?.sine).toBeCloseTo(sums.sine, 10);
      expect(found[line]?.cosineMoment).toBeCloseTo(sums.cosineMoment, 6);
      expect(found[line]?.sineMoment).toBeCloseTo(sums.sineMoment, 6);
    });
  });

  it('projects alike with and without moments', () => {
    const plain = project(values, angles);
    projectWithMoments(values, angles).forEach(({ cosine, sine }, line) => {
      // The same operations in the same order.
      expect(plain[line]).toEqual({ cosine, sine });
    });
  });

  it('loses a constant and lines sample by sample', () => {
    const lines = angles.map((angle, i) => ({ angle, cosine: 1 + i, sine: 2 - i }));
    const rest = withoutLines(values, 0.25, lines);
    expect(rest).toHaveLength(length);
    values.forEach((value, n) => {
      const m = n - middle;
      const sum = lines.reduce(
        (total, { angle, cosine, sine }) => total + cosine * Math.cos(angle * m) + sine * Math.sin(angle * m),
        0.25,
      );
      // Phases of up to 8000 rad, rounded.
      expect(rest[n]).toBeCloseTo(value - sum, 11);
    });
  });

  it.each([0, 0.3, 1.7, 3, 5.9])(
    'has the closed forms of its trigonometric sums at the angle %f',
    (angle) => {
      const found = trigonometricSums(length, angle);
      const sums = { cosine: 0, firstMoment: 0, secondMoment: 0 };
      for (let n = 0; n < length; n++) {
        const m = n - (length - 1) / 2;
        sums.cosine += Math.cos(angle * m);
        sums.firstMoment += m * Math.sin(angle * m);
        sums.secondMoment += m * m * Math.cos(angle * m);
      }
      // Relative to the largest term of each sum.
      expect(found.cosine).toBeCloseTo(sums.cosine, 10);
      expect(found.firstMoment / length).toBeCloseTo(sums.firstMoment / length, 10);
      expect(found.secondMoment / length ** 2).toBeCloseTo(sums.secondMoment / length ** 2, 10);
    },
  );
});
