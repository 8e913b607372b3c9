import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summariseWaveform } from '../../src/signal/index.ts';
import { channel, sum, tone, whiteNoise } from './signals.ts';

/** A record with a fundamental, nine harmonics and noise. */
interface Wave {
  length: number;
  cycles: number;
  phase: number;
  harmonics: number[];
  phases: number[];
  noise: number;
  dc: number;
  seed: number;
}

const waves: fc.Arbitrary<Wave> = fc.record({
  length: fc.integer({ min: 1200, max: 2400 }),
  cycles: fc.double({ min: 2.1, max: 40, noNaN: true }),
  phase: fc.double({ min: 0, max: 6.28, noNaN: true }),
  harmonics: fc.array(fc.double({ min: 0, max: 0.05, noNaN: true }), { minLength: 9, maxLength: 9 }),
  phases: fc.array(fc.double({ min: 0, max: 6.28, noNaN: true }), { minLength: 9, maxLength: 9 }),
  noise: fc.constantFrom(0, 1e-6, 1e-3, 1e-2),
  dc: fc.double({ min: -3, max: 3, noNaN: true }),
  seed: fc.integer({ min: 1, max: 1e6 }),
});

function samples({ length, cycles, phase, harmonics, phases, noise, dc, seed }: Wave): Float64Array {
  const pure = tone(length, {
    frequency: cycles / length,
    amplitudes: [1, ...harmonics],
    phases: [phase, ...phases],
    dc,
  });
  return sum(pure, whiteNoise(length, noise, seed));
}

function summarise(values: Float64Array) {
  const [summary] = summariseWaveform([channel(values)], values.length, {
    bandHz: [0, values.length],
  }).channels;
  if (!summary?.fundamental || !summary.thd) throw new Error('no fundamental');
  return { ...summary, fundamental: summary.fundamental, thd: summary.thd };
}

type Figures = ReturnType<typeof summarise>;

/** Figures that have no unit and no phase: what scaling, polarity and a constant must leave alone. */
const shape = ({ thd, thdPlusNoise, harmonics, clipping }: Figures) => ({
  thd: thd.ratio,
  low: thd.low,
  high: thd.high,
  thdPlusNoise: thdPlusNoise?.ratio ?? -1,
  harmonics: harmonics.map(({ ratio, uncertainty }) => [ratio, uncertainty]),
  clipping,
});

const fixed = { seed: 20_251_125, numRuns: 60 };

/** Compares numbers anywhere in two structures of one shape, and everything else exactly. */
function close(a: unknown, b: unknown, within: number): void {
  if (typeof a === 'number' && typeof b === 'number') {
    expect(Math.abs(a - b)).toBeLessThanOrEqual(within);
  } else if (typeof a === 'object' && a !== null && typeof b === 'object' && b !== null) {
    const other = new Map(Object.entries(b));
    for (const [key, value] of Object.entries(a)) close(value, other.get(key), within);
  } else expect(a).toEqual(b);
}

describe('summariseWaveform', () => {
  it('finds the frequency, level and harmonics that the record was made of', () => {
    fc.assert(
      fc.property(waves, (wave) => {
        const { fundamental, harmonics, dc } = summarise(samples(wave));
        // Six standard deviations of what the summary itself states, and rounding.
        expect(Math.abs(fundamental.frequencyHz - wave.cycles)).toBeLessThan(
          6 * fundamental.frequencyUncertaintyHz + 1e-9,
        );
        expect(Math.abs(fundamental.rms - Math.SQRT1_2)).toBeLessThan(6 * fundamental.rmsUncertainty + 1e-9);
        harmonics.forEach(({ order, ratio, uncertainty }) => {
          expect(Math.abs(ratio - (wave.harmonics[order - 2] ?? 0))).toBeLessThan(6 * uncertainty + 1e-9);
        });
        expect(Math.abs((dc ?? 0) - wave.dc)).toBeLessThan(wave.noise + 1e-9);
      }),
      fixed,
    );
  });

  it('gives the same ratios for a record times any factor, and levels times that factor', () => {
    fc.assert(
      fc.property(waves, fc.double({ min: -8, max: 8, noNaN: true }), (wave, decades) => {
        const factor = 10 ** decades;
        const values = samples(wave);
        const [plain, scaled] = [summarise(values), summarise(values.map((value) => value * factor))];
        // Rounding of the samples, enlarged by at most the constant over the fundamental.
        close(shape(scaled), shape(plain), 1e-11);
        expect(scaled.fundamental.rms / factor / plain.fundamental.rms).toBeCloseTo(1, 11);
        expect(Math.abs((scaled.noiseRms ?? 0) / factor - (plain.noiseRms ?? 0))).toBeLessThan(1e-11);
      }),
      fixed,
    );
  });

  it('gives the same ratios and turns every odd order by half a turn when the record is turned over', () => {
    fc.assert(
      fc.property(waves, (wave) => {
        const values = samples(wave);
        const [plain, turned] = [summarise(values), summarise(values.map((value) => -value))];
        close(shape(turned), shape(plain), 1e-12);
        expect(turned.dc).toBeCloseTo(-(plain.dc ?? 0), 12);
        plain.harmonics.forEach((harmonic, i) => {
          const turn = harmonic.order % 2 === 0 ? 180 : 0;
          const other = turned.harmonics[i]?.relativePhaseDeg ?? Number.NaN;
          // A phase is as good as its harmonic is large re the rounding.
          if (harmonic.ratio > 1e-6)
            expect(apart(other, harmonic.relativePhaseDeg + turn)).toBeLessThan(1e-3);
        });
      }),
      fixed,
    );
  });

  it('gives the same figures but for the constant when a constant is added', () => {
    fc.assert(
      fc.property(waves, fc.double({ min: -100, max: 100, noNaN: true }), (wave, added) => {
        const values = samples(wave);
        const [plain, raised] = [summarise(values), summarise(values.map((value) => value + added))];
        // Adding 100 rounds the samples to 1e-14, and what is fitted to them by some ten times that.
        close(shape(raised), shape(plain), 1e-11);
        expect(Math.abs((raised.dc ?? 0) - (plain.dc ?? 0) - added)).toBeLessThan(1e-11);
      }),
      fixed,
    );
  });

  it('gives the same harmonics and relative phases wherever a record of no noise begins', () => {
    fc.assert(
      fc.property(waves, fc.integer({ min: 1, max: 500 }), (wave, shift) => {
        const long = samples({
          ...wave,
          length: wave.length + shift,
          cycles: (wave.cycles * (wave.length + shift)) / wave.length,
          noise: 0,
        });
        const [early, late] = [summarise(long.subarray(0, wave.length)), summarise(long.subarray(shift))];
        // Exact fits of exact samples: rounding alone.
        expect(late.fundamental.frequencyHz).toBeCloseTo(early.fundamental.frequencyHz, 9);
        early.harmonics.forEach((harmonic, i) => {
          const other = late.harmonics[i];
          expect(Math.abs((other?.ratio ?? 0) - harmonic.ratio)).toBeLessThan(1e-10);
          if (harmonic.ratio > 1e-6) {
            expect(apart(other?.relativePhaseDeg ?? 0, harmonic.relativePhaseDeg)).toBeLessThan(1e-3);
          }
        });
        // The phase itself moves with the beginning.
        const moved = (360 * wave.cycles * shift) / wave.length;
        expect(apart(late.fundamental.phaseDeg, early.fundamental.phaseDeg + moved)).toBeLessThan(1e-6);
      }),
      fixed,
    );
  });

  it('keeps every phase within (−180, 180] degrees', () => {
    fc.assert(
      fc.property(waves, (wave) => {
        const { fundamental, harmonics } = summarise(samples(wave));
        [fundamental.phaseDeg, ...harmonics.map(({ relativePhaseDeg }) => relativePhaseDeg)].forEach(
          (phase) => {
            expect(phase).toBeGreaterThan(-180);
            expect(phase).toBeLessThanOrEqual(180);
          },
        );
      }),
      fixed,
    );
  });
});

/** Distance of two angles in degrees. */
function apart(a: number, b: number): number {
  const difference = Math.abs(a - b) % 360;
  return Math.min(difference, 360 - difference);
}
