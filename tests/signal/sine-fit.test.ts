import { describe, expect, it } from 'vitest';
import { sineFit3, sineFit4 } from '../../src/signal/index.ts';
import { check, csvColumn } from './checks.ts';
import { normal, tone } from './signals.ts';

const record = csvColumn('sinefit64.csv', 1);
const rateHz = 1000;
const of = (id: string) => check('sine-fit', id);

describe('the worked record of 64 samples', () => {
  it('is the one that the check values were computed from', () => {
    // Sums of numbers with four decimals.
    expect(record.reduce((sum, value) => sum + value, 0)).toBeCloseTo(of('record: sum'), 10);
    expect(record.reduce((sum, value) => sum + value ** 2, 0)).toBeCloseTo(of('record: sum of squares'), 8);
  });
});

describe('sineFit3 (IEEE Std 1057, known frequency) on the worked record', () => {
  const fit = sineFit3(record, { rateHz, frequencyHz: 47.3 });

  it('gives the components, constant, amplitude, phase and residual of numpy', () => {
    // Two implementations of one well-conditioned linear fit agree to about 14 digits.
    expect(fit?.cosine).toBeCloseTo(of('3 parameters: cosine'), 12);
    expect(fit?.sine).toBeCloseTo(of('3 parameters: sine'), 12);
    expect(fit?.constant).toBeCloseTo(of('3 parameters: constant'), 12);
    expect(fit?.amplitude).toBeCloseTo(of('3 parameters: amplitude'), 12);
    expect(((fit?.phaseDeg ?? 0) * Math.PI) / 180).toBeCloseTo(of('3 parameters: phase in radians'), 12);
    expect(fit?.rmsResidual).toBeCloseTo(of('3 parameters: rms residual'), 12);
  });
});

describe('sineFit4 (IEEE Std 1057, unknown frequency) on the worked record', () => {
  it('takes the step of the standard from 47 Hz', () => {
    const first = sineFit4(record, { rateHz, startHz: 47, iterations: 1 });
    // The same linear system: about 14 digits.
    expect(first?.frequencyHz).toBeCloseTo(of('4 parameters: frequency after one step from 47 Hz'), 11);
    // Later steps start from amplitudes fitted at the new frequency, the standard's from those that came with it: a
    // difference of second order in a step of 2e-4 Hz.
    const second = sineFit4(record, { rateHz, startHz: 47, iterations: 2 });
    const third = sineFit4(record, { rateHz, startHz: 47, iterations: 3 });
    expect(second?.frequencyHz).toBeCloseTo(of('4 parameters: frequency after two steps from 47 Hz'), 6);
    expect(third?.frequencyHz).toBeCloseTo(of('4 parameters: frequency after three steps from 47 Hz'), 9);
  });

  it('ends at the least squares', () => {
    const fit = sineFit4(record, { rateHz, startHz: 47 });
    // The check values agree among implementations to 4e-10 Hz, as the source says.
    expect(Math.abs((fit?.frequencyHz ?? 0) - of('4 parameters: frequency'))).toBeLessThan(4e-10);
    // 4e-10 Hz over 64 ms turns the phase at the first sample by 1e-10.
    expect(fit?.cosine).toBeCloseTo(of('4 parameters: cosine'), 9);
    expect(fit?.sine).toBeCloseTo(of('4 parameters: sine'), 9);
    expect(fit?.constant).toBeCloseTo(of('4 parameters: constant'), 10);
    expect(fit?.rmsResidual).toBeCloseTo(of('4 parameters: rms residual'), 12);
  });

  it('gives null where there is too little to fit', () => {
    expect(sineFit4(Float64Array.of(1, 2, 3), { rateHz, startHz: 100 })).toBeNull();
    expect(sineFit3(Float64Array.of(1, 2), { rateHz, frequencyHz: 100 })).toBeNull();
    expect(sineFit4(new Float64Array(256), { rateHz, startHz: 100 })).toBeNull();
  });

  it('gives null for a frequency that is none, zero, or half the rate', () => {
    [Number.NaN, 0, 1, 500, 700].forEach((frequencyHz) => {
      expect(sineFit3(record, { rateHz, frequencyHz })).toBeNull();
      expect(sineFit4(record, { rateHz, startHz: frequencyHz })).toBeNull();
    });
  });

  it('gives null where the steps lead away from the line they started at', () => {
    const values = tone(256, { frequency: 0.25, amplitudes: [1] });
    [5, 50, 100, 490].forEach((startHz) => {
      expect(sineFit4(values, { rateHz, startHz })).toBeNull();
    });
  });
});

describe('the spread of sine fits over 400 records of noise', () => {
  const [length, sigma, runs] = [1024, 0.01, 400];
  const errors = Array.from({ length: runs }, (_, run) => {
    const next = normal(run + 1);
    const values = tone(length, { frequency: 0.123, amplitudes: [1], phases: [1] }).map(
      (v) => v + sigma * next(),
    );
    const fit = sineFit4(values, { rateHz: 1, startHz: 0.123 });
    return {
      amplitude: (fit?.amplitude ?? 0) - 1,
      angle: 2 * Math.PI * ((fit?.frequencyHz ?? 0) - 0.123),
      phase: ((fit?.phaseDeg ?? 0) * Math.PI) / 180 - 1,
    };
  });
  const spread = (values: readonly number[]) =>
    Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);

  it('is the Cramér-Rao bound (Rife and Boorstyn 1974, from memory)', () => {
    // A standard deviation of 400 values is known to 3.5 %; three times that is 11 %.
    const ratios = [
      spread(errors.map((e) => e.amplitude)) / of('Cramér-Rao: amplitude'),
      spread(errors.map((e) => e.phase)) / of('Cramér-Rao: phase in radians'),
      spread(errors.map((e) => e.angle)) / of('Cramér-Rao: angle in radians per sample'),
    ];
    ratios.forEach((ratio) => {
      expect(Math.abs(ratio - 1)).toBeLessThan(0.11);
    });
  });
});
