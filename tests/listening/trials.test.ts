import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chanceOfResult, enoughSuccesses, plannedTrials, powerOf } from '../../src/listening/index.ts';
import { checkList } from '../signal/checks.ts';

const list = (id: string) => checkList('listening', id);

/** Products of a few dozen doubles: far fewer than a thousand roundings. */
const rounding = 1e-12;

describe('chanceOfResult', () => {
  test('gives the exact one-sided fractions of discrimination', () => {
    const counts = [
      [12, 16],
      [11, 16],
      [13, 16],
      [9, 10],
      [8, 10],
      [5, 5],
      [7, 8],
      [12, 15],
      [15, 20],
      [18, 25],
    ] as const;
    const expected = list(
      'one-sided probability: 12/16, 11/16, 13/16, 9/10, 8/10, 5/5, 7/8, 12/15, 15/20, 18/25',
    );
    expect(expected).toHaveLength(counts.length);
    counts.forEach(([right, trials], i) => {
      const found = chanceOfResult('discrimination', right, trials);
      expect(Math.abs(found / (expected[i] ?? 0) - 1)).toBeLessThan(rounding);
    });
  });

  test('gives the error of the first kind of the published table of 15 trials (Leventhal 1986, from a quotation)', () => {
    for (const right of [14, 13, 12, 11, 10, 9]) {
      const [alpha = 0] = list(row(right));
      // Four decimals are printed.
      expect(Math.abs(chanceOfResult('discrimination', right, 15) - alpha)).toBeLessThan(0.5001e-4);
    }
  });

  test('is two-sided for preference: twice the one-sided one on either side, and never above one', () => {
    for (const successes of [12, 4]) {
      // 2 · 2517/65536.
      expect(Math.abs(chanceOfResult('preference', successes, 16) - 0.076812744140625)).toBeLessThan(
        rounding,
      );
    }
    expect(chanceOfResult('preference', 8, 16)).toBe(1);
  });

  test('of all counts and sides adds up, and stays a probability for two thousand trials', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2000 }), fc.nat(2000), (trials, count) => {
        const successes = Math.min(count, trials);
        const above = chanceOfResult('discrimination', successes, trials);
        const below = chanceOfResult('discrimination', trials - successes + 1, trials);
        // P(at least k) and, by the symmetry of one half, P(at most k − 1).
        expect(Math.abs(above + below - 1)).toBeLessThan(1e-10);
        expect(above).toBeGreaterThanOrEqual(0);
        expect(above).toBeLessThanOrEqual(1);
      }),
      { numRuns: 200, seed: 3 },
    );
  });
});

const row = (right: number) =>
  `15 trials, ${right} right: error of the first kind, and of the second at .6, .7, .75, .8`;

describe('enoughSuccesses', () => {
  test('agrees with the published table at 5 % for 10 to 25 trials', () => {
    const found = Array.from({ length: 16 }, (_, i) => enoughSuccesses('discrimination', 10 + i));
    expect(found).toEqual(list('fewest right answers at .05: trials 10 to 25'));
  });

  test('agrees with scipy for other numbers, and at 1 %', () => {
    const others = [5, 6, 7, 8, 9, 30, 40, 50, 100].map((trials) =>
      enoughSuccesses('discrimination', trials),
    );
    expect(others).toEqual(list('fewest right answers at .05: trials 5, 6, 7, 8, 9, 30, 40, 50, 100'));
    const strict = Array.from({ length: 11 }, (_, i) => enoughSuccesses('discrimination', 10 + i, 0.01));
    expect(strict).toEqual(list('fewest right answers at .01: trials 10 to 20'));
  });

  test('is null where all right answers are too few: below 5 trials at 5 %, below 7 at 1 %, below 6 for preference', () => {
    expect([4, 5].map((trials) => enoughSuccesses('discrimination', trials))).toEqual([null, 5]);
    expect([6, 7].map((trials) => enoughSuccesses('discrimination', trials, 0.01))).toEqual([null, 7]);
    // Two-sided: 2/32 is above 5 %, 2/64 is not.
    expect([5, 6].map((trials) => enoughSuccesses('preference', trials))).toEqual([null, 6]);
  });
});

describe('powerOf', () => {
  test('is one less the error of the second kind (Leventhal 1986, from a quotation)', () => {
    for (const right of [14, 13, 12, 11, 10, 9]) {
      const [alpha = 0, ...betas] = list(row(right));
      // A level just above the row's own makes that row the first that is enough.
      const level = alpha + 0.5001e-4;
      expect(enoughSuccesses('discrimination', 15, level)).toBe(right);
      [0.6, 0.7, 0.75, 0.8].forEach((share, i) => {
        const beta = 1 - powerOf('discrimination', 15, share, level);
        // Four decimals are printed.
        expect(Math.abs(beta - (betas[i] ?? 0))).toBeLessThan(0.5001e-4);
      });
    }
  });

  test('agrees with scipy for 16 trials', () => {
    const betas = list('16 trials, 12 right: error of the second kind at .6, .7, .75, .8, .9');
    [0.6, 0.7, 0.75, 0.8, 0.9].forEach((share, i) => {
      // Ten digits are kept.
      expect(Math.abs(1 - powerOf('discrimination', 16, share) - (betas[i] ?? 0))).toBeLessThan(1e-10);
    });
  });

  test('is nothing in too few trials, and certain for a listener who never errs', () => {
    expect(powerOf('discrimination', 4, 0.9)).toBe(0);
    expect(powerOf('discrimination', 5, 1)).toBe(1);
  });
});

describe('plannedTrials', () => {
  test('finds the smallest number with both errors at most 5 %', () => {
    const shares = [0.6, 0.7, 0.75, 0.8, 0.9];
    const plans = shares.map((share) => plannedTrials('discrimination', { share, power: 0.95 }));
    expect(plans.map((plan) => plan?.trials)).toEqual(
      list('smallest number of trials with both errors at most .05, at .6, .7, .75, .8, .9'),
    );
    expect(plans.map((plan) => plan?.successes)).toEqual(list('right answers in these'));
  });

  test('takes more for preference, which is tested on both sides', () => {
    const effect = { share: 0.75, power: 0.8 };
    const [one, both] = [plannedTrials('discrimination', effect), plannedTrials('preference', effect)];
    expect(both?.trials).toBeGreaterThan(one?.trials ?? Number.POSITIVE_INFINITY);
    expect(powerOf('preference', both?.trials ?? 0, 0.75)).toBeGreaterThanOrEqual(0.8);
    for (let trials = 1; trials < (both?.trials ?? 0); trials++)
      expect(powerOf('preference', trials, 0.75)).toBeLessThan(0.8);
  });

  test('is null where two thousand trials do not do', () => {
    expect(plannedTrials('discrimination', { share: 0.52, power: 0.9 })).toBeNull();
  });
});
