import { describe, expect, it } from 'vitest';
import { check } from './checks.ts';
import { tone } from './signals.ts';
import { figuresOf, gentle, noisy, rateHz, summaryOf, type TwoTones, twoTones } from './two-tones.ts';

const of = (id: string) => check('two-tone', id);
const at = (lower: number, upper: number): readonly [number, number] => [lower / rateHz, upper / rateHz];

const fourToOne: TwoTones = { length: 16_384, frequencies: at(60, 7000), amplitudes: [0.8, 0.2] };
const equal: TwoTones = { length: 16_384, frequencies: at(19_000, 20_000), amplitudes: [0.5, 0.5] };
const lineOf = ({ products }: ReturnType<typeof figuresOf>, name: string) =>
  products.find((line) => line.name === name);

// Definitions of IEC 60268-3 and weights of SMPTE RP 120 are from memory; the values are computed from the polynomial.
describe('a low and a high tone, 4 to 1, through a polynomial', () => {
  const figures = figuresOf(twoTones(fourToOne, gentle));

  it('have the carrier, the low tone and the sidebands of its expansion', () => {
    // Nothing lies beyond the third order; 5.12 and 597.3 cycles are told apart to rounding: 1e-11.
    expect(
      Math.abs((figures.tones?.upper.rms ?? 0) * Math.SQRT2 - of('modulation: upper tone')),
    ).toBeLessThan(1e-11);
    expect(
      Math.abs((figures.tones?.lower.rms ?? 0) * Math.SQRT2 - of('modulation: lower tone')),
    ).toBeLessThan(1e-11);
    const carrier = of('modulation: upper tone');
    for (const name of ['f2 − f1', 'f2 + f1']) {
      expect(
        Math.abs((lineOf(figures, name)?.ratio ?? 0) * carrier - of('modulation: f2 ± f1')),
      ).toBeLessThan(1e-11);
    }
    for (const name of ['f2 − 2f1', 'f2 + 2f1']) {
      expect(
        Math.abs((lineOf(figures, name)?.ratio ?? 0) * carrier - of('modulation: f2 ± 2f1')),
      ).toBeLessThan(1e-11);
    }
  });

  it('have the modulation distortion of every form', () => {
    expect(figures.pattern).toBe('modulation');
    const { second, third, total, sidebands } = figures.modulation ?? {};
    // Sums of two to four lines of the accuracy above.
    expect(Math.abs((second?.ratio ?? 0) - of('modulation: second, arithmetic'))).toBeLessThan(1e-10);
    expect(Math.abs((third?.ratio ?? 0) - of('modulation: third, arithmetic'))).toBeLessThan(1e-10);
    expect(Math.abs((total?.ratio ?? 0) - of('modulation: both orders'))).toBeLessThan(1e-10);
    expect(Math.abs((sidebands?.ratio ?? 0) - of('modulation: four lines'))).toBeLessThan(1e-10);
  });

  it('say what each figure is referred to and how it is put together', () => {
    const { second, total, sidebands } = figures.modulation ?? {};
    expect(second).toMatchObject({
      reference: 'upper tone',
      form: 'arithmetic sum',
      lines: ['f2 − f1', 'f2 + f1'],
    });
    expect(total).toMatchObject({ reference: 'upper tone', form: 'root sum of squares' });
    expect(sidebands?.lines).toHaveLength(4);
    expect(figures.differenceFrequency).toBeNull();
    expect(figures.withheld).toContainEqual({
      figure: 'differenceFrequency',
      reason: expect.stringContaining('equal level'),
    });
  });
});

describe('two equal tones through a polynomial', () => {
  const figures = figuresOf(twoTones(equal, gentle));

  it('have the tones and the lines of its expansion', () => {
    const { lower, upper } = figures.tones ?? {};
    for (const found of [lower, upper]) {
      expect(Math.abs((found?.rms ?? 0) * Math.SQRT2 - of('difference: tones'))).toBeLessThan(1e-11);
    }
    const reference = of('difference: tones');
    expect(
      Math.abs((lineOf(figures, 'f2 − f1')?.ratio ?? 0) * reference - of('difference: f2 − f1')),
    ).toBeLessThan(1e-11);
    for (const name of ['2f1 − f2', '2f2 − f1']) {
      expect(
        Math.abs((lineOf(figures, name)?.ratio ?? 0) * reference - of('difference: 2f1 − f2')),
      ).toBeLessThan(1e-11);
    }
  });

  it('have the difference-frequency distortion of every form', () => {
    expect(figures.pattern).toBe('difference-frequency');
    const { second, secondOneTone, third, thirdRss } = figures.differenceFrequency ?? {};
    expect(Math.abs((second?.ratio ?? 0) - of('difference: second re sum'))).toBeLessThan(1e-11);
    expect(Math.abs((secondOneTone?.ratio ?? 0) - of('difference: second re one tone'))).toBeLessThan(1e-11);
    expect(Math.abs((third?.ratio ?? 0) - of('difference: third, arithmetic re sum'))).toBeLessThan(1e-11);
    expect(
      Math.abs((thirdRss?.ratio ?? 0) - of('difference: third, root sum of squares re sum')),
    ).toBeLessThan(1e-11);
    // The two references are 20·lg 2 = 6.0206 dB apart.
    expect(20 * Math.log10((secondOneTone?.ratio ?? 0) / (second?.ratio ?? 1))).toBeCloseTo(
      6.020599913279624,
      9,
    );
    expect(second?.reference).toBe('sum of both tones');
    expect(secondOneTone?.reference).toBe('mean of both tones');
  });

  it('find both frequencies from a start beside them', () => {
    const declared = figuresOf(twoTones(equal, gentle), { tonesHz: [20_010, 18_990] });
    // Least squares ends at the same place wherever it starts; a hundredth of a hertz is 2e-3 cycles per record.
    expect(declared.tones?.lower.frequencyHz).toBeCloseTo(19_000, 6);
    expect(declared.tones?.upper.frequencyHz).toBeCloseTo(20_000, 6);
  });
});

describe('the phase of a line, less that of the tones that make it', () => {
  // Product formulas of cosines: a curve without memory makes each line in phase or in opposite phase.
  it.each([
    ['all terms positive', gentle, 0, 0],
    ['a negative square', (x: number) => x - 0.01 * x ** 2 + 0.001 * x ** 3, 180, 0],
    ['a negative cube', (x: number) => x + 0.01 * x ** 2 - 0.001 * x ** 3, 0, 180],
  ])('is that of the curve’s term wherever the tones begin: %s', (_, curve, second, third) => {
    for (const phases of [[0.3, 1.1] as const, [-2, 2.7] as const]) {
      const figures = figuresOf(twoTones({ ...equal, phases }, curve));
      const off = (name: string, expected: number) =>
        Math.abs(Math.abs(lineOf(figures, name)?.relativePhaseDeg ?? 999) - expected);
      // Lines of 1e-3 and 1e-4 of the tones without noise, fitted to 1e-11 of the tones: 1e-7 rad.
      for (const name of ['f2 − f1', 'f2 + f1']) expect(off(name, second), name).toBeLessThan(1e-5);
      for (const name of ['2f1 − f2', '2f2 − f1']) expect(off(name, third), name).toBeLessThan(1e-5);
    }
  });
});

describe('small signals through a curve', () => {
  it('make second- and third-order lines two and three times the harmonics of one of the tones', () => {
    const amplitude = 0.01;
    const pair = figuresOf(twoTones({ ...equal, amplitudes: [amplitude, amplitude] }, gentle));
    const second = (0.01 * amplitude) / 2;
    const third = (0.001 * amplitude ** 2) / 4;
    // HD2 = k2·A/2 and HD3 = k3·A²/4 for a small A; the neglected part of each is of the order of k3·A² = 1e-7.
    expect((lineOf(pair, 'f2 − f1')?.ratio ?? 0) / second).toBeCloseTo(
      of('small signals: second-order line over second harmonic'),
      5,
    );
    expect((lineOf(pair, '2f1 − f2')?.ratio ?? 0) / third).toBeCloseTo(
      of('small signals: third-order line over third harmonic'),
      3,
    );
  });
});

describe('tones that are for neither set of figures', () => {
  it('get their lines and the reason', () => {
    const summary = summaryOf(
      twoTones({ length: 16_384, frequencies: at(400, 3100), amplitudes: [0.5, 0.5] }, gentle),
    );
    const [only] = summary.channels;
    expect(only).toMatchObject({ pattern: null, modulation: null, differenceFrequency: null });
    expect(only?.products.length).toBeGreaterThan(6);
    expect(only?.withheld.map(({ figure }) => figure)).toEqual(['modulation', 'differenceFrequency']);
    expect(summary.warnings.map(({ rule }) => rule)).toContain('no-two-tone-pattern');
  });

  it('leave out a line that falls on one of lower order, and say so', () => {
    const summary = summaryOf(
      twoTones({ length: 16_384, frequencies: at(1000, 3000), amplitudes: [0.5, 0.5] }, gentle),
      { tonesHz: [1000, 3000] },
    );
    expect(summary.channels[0]?.products.map(({ name }) => name)).not.toContain('f2 − 2f1');
    expect(summary.warnings.map(({ message }) => message).join(' ')).toContain(
      'f2 − 2f1 cannot be told from f1',
    );
  });

  it('withhold a sum of which a line lies beyond half the rate', () => {
    // At 48 kHz, 2f2 − f1 of 22.8 and 23.6 kHz lies at 24.4 kHz; in cycles per sample this is independent of the rate.
    const [only] = summaryOf(
      twoTones({ length: 16_384, frequencies: [22.8 / 48, 23.6 / 48], amplitudes: [0.5, 0.5] }, gentle),
    ).channels;
    expect(only?.differenceFrequency?.second).not.toBeNull();
    expect(only?.differenceFrequency?.third).toBeNull();
    expect(only?.withheld).toContainEqual({
      figure: 'differenceFrequency.third',
      reason: expect.stringContaining('beyond half the sampling rate'),
    });
  });
});

describe('records whose two tones are not clear', () => {
  const reasonOf = (values: Float64Array, tonesHz?: readonly [number, number]) => {
    const { channels, warnings } = summaryOf(values, tonesHz ? { tonesHz } : {});
    const [only] = channels;
    expect(only).toMatchObject({ tones: null, products: [], modulation: null, differenceFrequency: null });
    expect(only?.withheld.find(({ figure }) => figure === 'tones')?.reason).toBe(warnings[0]?.message);
    return warnings[0]?.rule;
  };
  const sine = (amplitudes: readonly number[]) =>
    noisy(tone(16_384, { frequency: 1000 / rateHz, amplitudes }), 1e-4, 5);

  it.each([
    ['a sine and its harmonic', () => reasonOf(sine([1, 0.3])), 'harmonic-pair'],
    ['one sine in noise', () => reasonOf(sine([1])), 'no-two-tones'],
    [
      'a sine and small hum',
      () => reasonOf(twoTones({ ...equal, frequencies: at(150, 1010), amplitudes: [0.02, 1] })),
      'one-tone-only',
    ],
    ['noise', () => reasonOf(noisy(new Float64Array(16_384), 1, 7)), 'no-two-tones'],
    ['a constant', () => reasonOf(new Float64Array(4096).fill(2)), 'constant-record'],
    ['too few samples', () => reasonOf(new Float64Array(8)), 'record-too-short'],
    [
      'three tones',
      () => {
        const third = tone(16_384, { frequency: 5030 / rateHz, amplitudes: [0.4] });
        return reasonOf(twoTones(equal).map((value, n) => value + (third[n] ?? 0)));
      },
      'third-line',
    ],
    [
      'declared tones that are elsewhere',
      () => reasonOf(noisy(twoTones(equal), 1e-4, 9), [60, 7000]),
      'declared-tone-missing',
    ],
    ['a declared tone of one cycle', () => reasonOf(twoTones(equal), [12, 7000]), 'too-few-cycles'],
    [
      'a declared tone beyond half the rate',
      () => reasonOf(twoTones(equal), [19_000, 97_000]),
      'tone-above-half-rate',
    ],
  ])('%s: nothing is computed, and the reason is given', (_, rule, expected) => {
    expect(rule()).toBe(expected);
  });

  it('takes a harmonic for a tone where it is declared as one', () => {
    const declared = figuresOf(sine([1, 0.3]), { tonesHz: [1000, 2000] });
    // 0.3 of the lower tone, with noise of 1e-4 in 16384 samples.
    expect(1 / (declared.tones?.levelRatio ?? 0)).toBeCloseTo(0.3, 4);
  });

  it('reports a sample that is no number and withholds everything', () => {
    const values = twoTones(equal);
    values[100] = Number.NaN;
    expect(figuresOf(values)).toMatchObject({ tones: null, dc: null, rms: null });
  });
});

describe('clipping', () => {
  it('is told from the rounded tops of two clean tones', () => {
    const clipped = (value: number) => Math.max(-0.8, Math.min(0.8, value));
    expect(figuresOf(noisy(twoTones(equal), 1e-5, 3)).clipping).toBe(false);
    expect(figuresOf(noisy(twoTones(fourToOne), 1e-5, 3)).clipping).toBe(false);
    expect(figuresOf(twoTones({ ...equal, frequencies: at(1900, 2000) }, clipped)).clipping).toBe(true);
  });
});

it('no number of any summary is NaN or infinite', () => {
  const cases = [
    twoTones(equal, gentle),
    twoTones(fourToOne),
    new Float64Array(64),
    noisy(twoTones(equal), 1, 1),
  ];
  for (const values of cases) {
    const text = JSON.stringify(summaryOf(values), (_, value) =>
      typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value,
    );
    expect(text).not.toContain('not finite');
  }
});
