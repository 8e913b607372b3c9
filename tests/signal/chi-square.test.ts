import { describe, expect, it } from 'vitest';
import { chiSquareAbove } from '../../src/signal/index.ts';
import { checkList } from './checks.ts';

describe('chiSquareAbove', () => {
  it('gives 0.05 at the published values (NIST/SEMATECH e-Handbook, from memory)', () => {
    const values = checkList('repeats', 'chi-square: exceeded with probability 0.05');
    const freedoms = checkList('repeats', 'chi-square: degrees of freedom');
    expect(values).toHaveLength(freedoms.length);
    values.forEach((value, i) => {
      // Three decimals are printed; the density there is below 0.04.
      expect(Math.abs(chiSquareAbove(value, freedoms[i] ?? 0) - 0.05)).toBeLessThan(2e-5);
    });
  });

  it('is exp(−x/2) for two degrees, the closed form, far into the tail', () => {
    for (const value of [0.01, 1, 10, 60, 1400, 2000]) {
      // Absolute error as stated.
      expect(Math.abs(chiSquareAbove(value, 2) - Math.exp(-value / 2))).toBeLessThan(1e-12);
    }
  });

  it('is certain at zero and below, and falls with the value', () => {
    expect(chiSquareAbove(0, 4)).toBe(1);
    expect(chiSquareAbove(-1, 4)).toBe(1);
    const tail = [1, 3, 9, 30, 200].map((value) => chiSquareAbove(value, 7));
    expect(tail).toEqual([...tail].sort((a, b) => b - a));
  });
});
