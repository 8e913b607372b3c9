import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { unitVariances } from '../../src/signal/fit/normal-equations.ts';
import {
  amplitudeSpectrum,
  cosineWindow,
  noiseDensity,
  summariseWaveform,
  type WindowName,
  windowValues,
} from '../../src/signal/index.ts';
import { powerThreshold } from '../../src/signal/record/detection.ts';
import { studentTwoSided95 } from '../../src/signal/statistics/student.ts';
import { thdInterval } from '../../src/signal/statistics/thd-interval.ts';
import { binomialRange } from '../simulation/binomial.ts';
import { channel } from './signals.ts';

/** Written by fixtures/generate.py, which states the versions. */
function fixture<Content>(name: string): Content {
  return JSON.parse(readFileSync(new URL(`fixtures/${name}.json`, import.meta.url), 'utf8')) as Content;
}

interface FitFixture {
  rateHz: number;
  orders: number;
  record: number[];
  fit: {
    frequencyHz: number;
    constant: number;
    rms: number;
    ratios: number[];
    relativePhasesDeg: number[];
    thd: number;
    residualRms: number;
    unitVarianceOfAngle: number;
    unitVarianceOfComponents: number[];
    angle: number;
    cosine: number[];
    sine: number[];
  };
}

interface SpectraFixture {
  amplitude: Record<WindowName, { lines: number[]; frequencyHz: number[]; rms: number[] }>;
  welch: { segment: number; frequencyHz: number[]; density: number[] };
  windows: Record<WindowName, { values: number[]; coherentGain: number; enbwBins: number }>;
}

interface StatisticsFixture {
  student: { freedom: number; twoSided95: number }[];
  fisher: { tail: number; freedom: number; value: number }[];
  oneHarmonic: { square: number; low: number; high: number }[];
  binomial: { p: number; least: number; most: number }[];
}

const { rateHz, orders, record, fit } = fixture<FitFixture>('scipy-fit');
const spectra = fixture<SpectraFixture>('scipy-spectra');
const statistics = fixture<StatisticsFixture>('scipy-statistics');
const values = Float64Array.from(record);

/** Relative agreement. */
function agrees(found: number | null | undefined, expected: number, within: number): void {
  expect(Math.abs((found ?? Number.NaN) / expected - 1)).toBeLessThan(within);
}

describe('the summary of a record of 1500 samples with noise and a slow tone, against scipy.optimize.least_squares', () => {
  const [summary] = summariseWaveform([channel(values)], rateHz, { harmonics: orders }).channels;

  it('has the same frequency, constant and level', () => {
    // Both stop at a step of 1e-10 radians of phase over the record or less; amplitudes are stationary there.
    agrees(summary?.fundamental?.frequencyHz, fit.frequencyHz, 1e-10);
    agrees(summary?.dc, fit.constant, 1e-10);
    agrees(summary?.fundamental?.rms, fit.rms, 1e-10);
    agrees(summary?.noiseRms, fit.residualRms, 1e-10);
  });

  it('has the same harmonics, relative phases and THD', () => {
    // The two stop some 1e-10 of the fundamental apart; the smallest ratio is 2e-4, whose phase
    // that turns by 3e-5 degrees.
    expect(summary?.harmonics.map(({ order }) => order)).toEqual([2, 3, 4, 5, 6]);
    summary?.harmonics.forEach(({ ratio, relativePhaseDeg }, i) => {
      expect(Math.abs(ratio - (fit.ratios[i] ?? Number.NaN))).toBeLessThan(5e-10);
      expect(Math.abs(relativePhaseDeg - (fit.relativePhasesDeg[i] ?? Number.NaN))).toBeLessThan(1e-4);
    });
    agrees(summary?.thd?.ratio, fit.thd, 1e-9);
  });

  it('has the same covariance as the Jacobian of all parameters', () => {
    const { angle, components } = unitVariances(values.length, fit.angle, fit);
    // An inverse of a well-conditioned matrix in doubles, columns scaled as far apart as 1000 to 1.
    agrees(angle, fit.unitVarianceOfAngle, 1e-8);
    components.forEach((variance, i) => {
      agrees(variance, fit.unitVarianceOfComponents[i] ?? Number.NaN, 1e-8);
    });
  });
});

describe.each(Object.entries(spectra.amplitude))(
  'the amplitude spectrum with the %s window, against scipy.signal.periodogram',
  (window, expected) => {
    it('has the same frequencies and levels, line by line', () => {
      const found = amplitudeSpectrum(channel(values), rateHz, {
        window: window as WindowName,
        harmonics: orders,
      });
      expected.lines.forEach((line, i) => {
        expect(found.frequencyHz[line]).toBeCloseTo(expected.frequencyHz[i] ?? Number.NaN, 9);
        // Two transforms of one record; levels below 1e-12 of the largest would be rounding, and none is.
        expect(Math.abs((found.rms[line] ?? Number.NaN) - (expected.rms[i] ?? 0))).toBeLessThan(1e-10);
      });
    });
  },
);

describe('the noise density, against scipy.signal.welch of the record that scipy’s own fit leaves', () => {
  const found = noiseDensity(channel(values), rateHz, { harmonics: orders });

  it('has the same segments, frequencies and densities', () => {
    expect(found?.segment).toBe(spectra.welch.segment);
    expect(found?.density.length).toBe(spectra.welch.density.length);
    spectra.welch.density.forEach((density, line) => {
      expect(found?.frequencyHz[line]).toBeCloseTo(spectra.welch.frequencyHz[line] ?? Number.NaN, 9);
      // The two fits differ by some 1e-10 of the record, its noise is 1e-2 of it.
      agrees(found?.density[line], density, 1e-6);
    });
  });
});

describe.each(Object.entries(spectra.windows))(
  'the %s window of 15 samples, against scipy',
  (name, expected) => {
    const window = cosineWindow(name as WindowName);

    it('has the same values, coherent gain and equivalent noise bandwidth', () => {
      // Sums of at most seven cosines.
      [...windowValues(window, 15)].forEach((value, n) => {
        expect(value).toBeCloseTo(expected.values[n] ?? Number.NaN, 14);
      });
      expect(window.coherentGain).toBeCloseTo(expected.coherentGain, 14);
      expect(window.enbwBins).toBeCloseTo(expected.enbwBins, 12);
    });
  },
);

describe('quantiles, against scipy.stats', () => {
  it.each(statistics.student)('Student’s t of $freedom degrees of freedom', ({ freedom, twoSided95 }) => {
    // For one and two, scipy's own inversion of the incomplete beta function: some 1e-11. The expansion in powers of 1/ν leaves 0.2 % at three, 1e-5 from ten on.
    const within = freedom < 3 ? 1e-10 : freedom < 10 ? 2e-3 : 1e-5;
    agrees(studentTwoSided95(freedom), twoSided95, within);
  });

  it.each(statistics.fisher)(
    'F of 2 and $freedom degrees of freedom, tail $tail',
    ({ tail, freedom, value }) => {
      // A closed form; scipy inverts the incomplete beta function to some 1e-12.
      agrees(powerThreshold(tail, freedom), value, 1e-10);
    },
  );

  it.each(statistics.binomial)('the range of counts of 5,000 with probability $p', ({ p, least, most }) => {
    // Whole numbers.
    expect(binomialRange(5000, p)).toEqual({ least, most });
  });
});

describe('the interval of one harmonic, against the noncentral chi-square of two degrees of freedom', () => {
  it.each(statistics.oneHarmonic)('whose square is $square times its variance', ({ square, low, high }) => {
    const alone = { ratio: Math.sqrt(square), uncertainty: 1 };
    const found = thdInterval({ harmonics: [alone], fundamentalUncertainty: 0, freedom: 1e12 });
    // Three cumulants and a cube root stand in for the exact distribution: within an eighth of a standard deviation
    // here, where two degrees of freedom are the least that occur.
    expect(Math.abs(found.low - low)).toBeLessThan(0.125);
    expect(Math.abs(found.high - high)).toBeLessThan(0.125);
  });
});

describe('the low end of the interval of one harmonic leaves zero where Fisher’s F says', () => {
  const atFortieth = statistics.fisher.filter(({ tail }) => tail === 0.025);

  it.each(atFortieth)('for noise of $freedom degrees of freedom', ({ freedom, value }) => {
    const lowAt = (square: number) =>
      thdInterval({
        harmonics: [{ ratio: Math.sqrt(2 * square), uncertainty: 1 }],
        fundamentalUncertainty: 0,
        freedom,
      }).low;
    // Cube roots stand in for both chi-squares: within 4 % of the power.
    expect(lowAt(0.96 * value)).toBe(0);
    expect(lowAt(1.04 * value)).toBeGreaterThan(0);
  });
});
