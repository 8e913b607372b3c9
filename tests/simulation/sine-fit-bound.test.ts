import { describe, expect, it } from 'vitest';
import { sineFit4 } from '../../src/signal/index.ts';
import { normal, tone, uniform } from '../signal/signals.ts';

const [length, sigma, runs] = [256, 0.02, 5000];
/** Drawn once and kept. */
const seed = 3_304_157_731;

const errors = Array.from({ length: runs }, (_, run) => {
  const next = uniform(seed + 7919 * run);
  const noise = normal(seed ^ (15_485_863 * run));
  const frequency = 0.08 + 0.3 * next();
  const phase = 2 * Math.PI * next();
  const values = tone(length, { frequency, amplitudes: [1], phases: [phase], dc: 0.3 });
  const noisy = values.map((value) => value + sigma * noise());
  const fit = sineFit4(noisy, { rateHz: 1, startHz: frequency });
  const turned = ((fit?.phaseDeg ?? 0) * Math.PI) / 180 - phase;
  return {
    amplitude: (fit?.amplitude ?? 0) - 1,
    phase: turned - 2 * Math.PI * Math.round(turned / (2 * Math.PI)),
    angle: 2 * Math.PI * ((fit?.frequencyHz ?? 0) - frequency),
    residual: (fit?.rmsResidual ?? 0) ** 2,
  };
});

const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

/** The bounds for many cycles: Rife and Boorstyn 1974 (from memory, as computed in shared/checks/sine-fit.json). */
const bounds = {
  amplitude: sigma * Math.sqrt(2 / length),
  phase: sigma * Math.sqrt(8 / length),
  angle: sigma * Math.sqrt(24 / (length * (length * length - 1))),
};

describe('four-parameter sine fits of 5,000 records in white noise', () => {
  it.each(['amplitude', 'phase', 'angle'] as const)('spread by the Cramér-Rao bound: %s', (what) => {
    const square = meanOf(errors.map((error) => error[what] ** 2));
    // A mean of 5,000 squares of normal errors has a relative standard deviation of √(2/5000) = 2 %; 3.29 of them are
    // 99.9 %. The bounds hold for many cycles; with twenty at least they are off by less than 0.5 %, and the phase's at
    // the first sample by 3/(2N) = 0.6 %.
    expect(Math.abs(square / bounds[what] ** 2 - 1)).toBeLessThan(3.29 * Math.sqrt(2 / runs) + 0.011);
  });

  it.each(['amplitude', 'phase', 'angle'] as const)('are right in the mean: %s', (what) => {
    const mean = meanOf(errors.map((error) => error[what]));
    // 99.9 % of a mean of 5,000. Noise lengthens the amplitude by σ²/(N·A) in the mean: 1.6e-6, a fifth of the bound's
    // standard error.
    expect(Math.abs(mean)).toBeLessThan((3.29 * bounds[what]) / Math.sqrt(runs) + 2e-6);
  });

  it('leave the noise’s variance less four degrees of freedom', () => {
    const share = meanOf(errors.map((error) => error.residual)) / (sigma * sigma);
    // Each residual varies by √(2/252) = 9 %, their mean by 0.13 %.
    expect(Math.abs(share - (length - 4) / length)).toBeLessThan(
      (3.29 * Math.sqrt(2 / 252)) / Math.sqrt(runs),
    );
  });
});
