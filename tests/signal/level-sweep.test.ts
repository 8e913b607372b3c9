import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LevelSweep, type LevelSweepOptions, summariseLevelSweep } from '../../src/signal/index.ts';
import { check } from './checks.ts';

const of = (id: string) => check('closed-forms', id);

/** Ideal clipper of a sine at ±1, driven `times` beyond the onset: Fourier coefficient, power and THD in closed form. */
function clipper(times: number): { powerW: number; thd: number } {
  if (times <= 1) return { powerW: times * times, thd: 0 };
  const limit = 1 / times;
  const angle = Math.asin(limit);
  const first = (2 / Math.PI) * (angle + limit * Math.sqrt(1 - limit * limit));
  const meanSquare =
    (2 / Math.PI) * (angle / 2 - Math.sin(2 * angle) / 4 + (Math.PI / 2 - angle) * limit * limit);
  const thd = Math.sqrt(Math.max(0, (2 * meanSquare) / (first * first) - 1));
  return { powerW: 2 * meanSquare * times * times, thd };
}

const summarise = (sweep: LevelSweep, options?: LevelSweepOptions) => summariseLevelSweep(sweep, options);
const reasons = ({ withheld }: ReturnType<typeof summarise>) => withheld.map(({ figure }) => figure);

describe('a dense sweep of an ideal clipper', () => {
  const drives = Float64Array.from({ length: 1500 }, (_, i) => 0.1 * 10 ** (i / 1000));
  const points = Array.from(drives, clipper);
  const sweep: LevelSweep = {
    inputV: drives,
    powerW: Float64Array.from(points, ({ powerW }) => powerW),
    thd: Float64Array.from(points, ({ thd }) => thd),
  };
  const thdRatios = [0.001, 0.005, 0.01, 0.03, 0.1];

  it('gives the output power at 0.1, 0.5, 1, 3 and 10 % of the closed form, re the power at onset', () => {
    const { powerAtThd } = summarise(sweep, { thdRatios });
    // 1000 points to a decade: lines on log-log paper miss the curve by some 1e-5, at the steep onset by 1e-4.
    powerAtThd.forEach(({ thdRatio, powerW }) => {
      const expected = of(`clipper with ${thdRatio} THD: power`);
      expect(Math.abs((powerW ?? 0) / expected - 1)).toBeLessThan(thdRatio < 0.005 ? 2e-4 : 3e-5);
    });
  });

  it('gives the same from the output voltage and the load', () => {
    const loadOhm = 8;
    const outputV = sweep.powerW?.map((power) => Math.sqrt(power * loadOhm));
    const [plain, volts] = [
      summarise(sweep, { thdRatios }),
      summarise(
        { inputV: drives, outputV: outputV ?? drives, thd: sweep.thd ?? drives },
        { thdRatios, loadOhm },
      ),
    ];
    plain.powerAtThd.forEach(({ powerW }, i) => {
      expect(volts.powerAtThd[i]?.powerW).toBeCloseTo(powerW ?? 0, 10);
    });
  });

  it('does not depend on the order of the points', () => {
    const order = [...drives.keys()].reverse();
    const turned = (column: Float64Array | undefined) =>
      Float64Array.from(order, (row) => column?.[row] ?? 0);
    const reversed = { inputV: turned(drives), powerW: turned(sweep.powerW), thd: turned(sweep.thd) };
    expect(summarise(reversed)).toEqual(summarise(sweep));
  });

  it('has its largest power and its ends', () => {
    const { largestPowerW, ends, points: count } = summarise(sweep);
    expect(largestPowerW).toBe(points.at(-1)?.powerW);
    expect(ends).toEqual([
      { powerW: points[0]?.powerW, thd: 0 },
      { powerW: points.at(-1)?.powerW, thd: points.at(-1)?.thd },
    ]);
    expect(count).toBe(1500);
  });
});

describe('power at a distortion', () => {
  const powerW = Float64Array.of(0.01, 0.1, 1, 10, 20);

  it('is where distortion rises through it for the last time: noise at low level does not count', () => {
    const { powerAtThd } = summarise({ powerW, thd: Float64Array.of(0.05, 0.015, 0.005, 0.02, 0.2) });
    // From 1 to 10 W distortion rises fourfold, so 1 % is half way on log-log paper.
    expect(powerAtThd[0]?.powerW).toBeCloseTo(Math.sqrt(10), 9);
    expect(powerAtThd.map(({ thdRatio }) => thdRatio)).toEqual([0.01, 0.03, 0.1]);
  });

  it('is null where distortion stays below it, with the end of the sweep as the reason', () => {
    const summary = summarise({ powerW, thd: Float64Array.of(0.02, 0.01, 0.005, 0.008, 0.012) });
    expect(summary.powerAtThd[1]?.powerW).toBeNull();
    expect(reasons(summary)).toEqual(['power at 0.03 distortion', 'power at 0.1 distortion']);
    expect(summary.withheld[0]?.reason).toContain('20.0\u00a0W with 1.20 %');
  });

  it('is null where distortion is above it from the start, with the beginning of the sweep as the reason', () => {
    const summary = summarise({ powerW, thd: Float64Array.of(0.02, 0.03, 0.04, 0.05, 0.2) });
    expect(summary.powerAtThd[0]?.powerW).toBeNull();
    expect(summary.withheld[0]?.reason).toContain('2.00 % already');
    expect(summary.withheld[0]?.reason).toContain('10.0\u00a0mW');
  });

  it('follows the drive, not the power, where power falls again behind its peak', () => {
    const summary = summarise({
      inputV: Float64Array.of(1, 2, 3, 4),
      powerW: Float64Array.of(1, 4, 5, 4.5),
      thd: Float64Array.of(0.001, 0.002, 0.02, 0.08),
    });
    // Between 5 W at 2 % and 4.5 W at 8 %.
    const expected = 5 * (4.5 / 5) ** (Math.log(1.5) / Math.log(4));
    expect(summary.powerAtThd[1]?.powerW).toBeCloseTo(expected, 12);
    expect(summary.largestPowerW).toBe(5);
  });
});

describe('distortion at a power', () => {
  const sweep: LevelSweep = {
    powerW: Float64Array.of(0.1, 10),
    thd: Float64Array.of(0.001, 0.1),
    harmonics: [
      { order: 2, ratio: Float64Array.of(0.001, 0.01) },
      { order: 3, ratio: Float64Array.of(0, 0.1) },
    ],
  };

  it('is read off log-log paper, at 1 W where nothing else is asked', () => {
    const [at] = summarise(sweep).atPower;
    // Half way from 0.1 to 10 W; from a ratio of zero the run is straight.
    expect(at?.powerW).toBe(1);
    expect(at?.thd).toBeCloseTo(0.01, 12);
    expect(at?.harmonics).toEqual([
      { order: 2, ratio: expect.closeTo(Math.sqrt(1e-5), 12) },
      { order: 3, ratio: expect.closeTo(0.05, 12) },
    ]);
  });

  it('is not extrapolated, and the reason states both ends', () => {
    const summary = summarise(sweep, { powersW: [0.1, 10, 0.05, 20] });
    expect(summary.atPower.map(({ thd }) => thd)).toEqual([0.001, 0.1, null, null]);
    expect(reasons(summary)).toContain('distortion at 0.05 W');
    expect(summary.withheld.at(-1)?.reason).toContain('100\u00a0mW to 10.0\u00a0W');
  });
});

describe('untidy level sweeps', () => {
  it('have no power without power, or without voltage and load', () => {
    const summary = summarise({
      inputV: Float64Array.of(1, 2),
      outputV: Float64Array.of(1, 2),
      thd: Float64Array.of(0, 0),
    });
    expect(summary).toMatchObject({ points: 0, largestPowerW: null, ends: [] });
    expect(reasons(summary)).toEqual(['largestPowerW', 'powerAtThd', 'atPower']);
    expect(summary.withheld[0]?.reason).toContain('load');
    expect(summarise({}).largestPowerW).toBeNull();
  });

  it('say that there is no distortion', () => {
    const summary = summarise({ powerW: Float64Array.of(1, 2) });
    expect(summary.largestPowerW).toBe(2);
    expect(reasons(summary)).toEqual(['powerAtThd', 'atPower']);
  });

  it('lose points and values that cannot be used, which is said', () => {
    const summary = summarise({
      powerW: Float64Array.of(1, Number.NaN, 2, 4, 0),
      thd: Float64Array.of(0.001, 0.5, Number.NaN, 0.1, 0.5),
    });
    expect(summary.points).toBe(3);
    expect(summary.warnings.map(({ rule }) => rule)).toEqual(['points-left-out', 'values-left-out']);
    // From 1 W to 4 W, as the point between has no distortion.
    expect(summary.powerAtThd[0]?.powerW).toBeCloseTo(2, 12);
  });

  it('never give a number that is not finite', () => {
    const column = fc
      .array(fc.double(), { minLength: 5, maxLength: 5 })
      .map((values) => Float64Array.from(values));
    fc.assert(
      fc.property(column, column, column, fc.double(), (inputV, outputV, thd, loadOhm) => {
        const summary = summarise(
          { inputV, outputV, thd, harmonics: [{ order: 2, ratio: inputV }] },
          { loadOhm, powersW: [...outputV], thdRatios: [...thd] },
        );
        const numbers = JSON.stringify(summary, (_, value) =>
          typeof value === 'number' && !Number.isFinite(value) ? 'not finite' : value,
        );
        expect(numbers).not.toContain('not finite');
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});
