import { describe, expect, it } from 'vitest';
import { combinedUncertainty } from '../../src/signal/index.ts';
import { check, checkList } from './checks.ts';

/** The parts of a published example. */
function partsOf(example: string, unit: string) {
  const freedoms = checkList('repeats', `${example}: degrees of freedom`);
  return checkList('repeats', `${example}: standard uncertainties in ${unit}`).map((standard, i) => ({
    standard,
    freedom: freedoms[i] ?? Number.NaN,
  }));
}

describe('combinedUncertainty', () => {
  it('gives the worked example of JCGM 100:2008, G.4.1 (from memory)', () => {
    const { standard, freedom, half95 } = combinedUncertainty(partsOf('GUM G.4.1', '%'));
    // Ten, six and three digits are given; Student's t is good to 0.2 %.
    const expected = (what: string) => check('repeats', `GUM G.4.1: ${what}`);
    expect(Math.abs(standard - expected('combined standard uncertainty in %'))).toBeLessThan(1e-9);
    expect(Math.abs(freedom - expected('effective degrees of freedom'))).toBeLessThan(1e-4);
    expect(Math.abs(half95 - expected('95 % half width in %'))).toBeLessThan(0.005);
  });

  it('gives the effective degrees of freedom of the gauge block of JCGM 100:2008, H.1.6 (from memory)', () => {
    const { standard, freedom } = combinedUncertainty(partsOf('GUM H.1.6', 'nm'));
    // 32 nm as printed; the degrees from the root sum of squares of the printed parts, to their four digits.
    expect(Math.round(standard)).toBe(32);
    expect(Math.abs(freedom - check('repeats', 'GUM H.1.6: effective degrees of freedom'))).toBeLessThan(
      0.005,
    );
  });

  it('is normal where no part is an estimate, and never narrower than its largest part', () => {
    const stated = { standard: 3, freedom: Number.POSITIVE_INFINITY };
    const both = combinedUncertainty([stated, { ...stated, standard: 4 }]);
    expect(both).toMatchObject({ standard: 5, freedom: Number.POSITIVE_INFINITY });
    // The normal deviate, to rounding.
    expect(Math.abs(both.half95 - 5 * 1.959963984540054)).toBeLessThan(1e-12);
    const alone = combinedUncertainty([{ standard: 2, freedom: 1 }]);
    // Student's t of one degree of freedom: table G.2 of the GUM has 12.71.
    expect(Math.abs(alone.half95 - 25.41)).toBeLessThan(0.01);
  });

  it('is nothing for parts of nothing', () => {
    expect(combinedUncertainty([{ standard: 0, freedom: 4 }])).toMatchObject({ standard: 0, half95: 0 });
  });
});
