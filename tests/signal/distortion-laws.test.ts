import { describe, expect, it } from 'vitest';
import { levelSweepDetails } from '../../src/signal/index.ts';
import { studentTwoSided95 } from '../../src/signal/statistics/student.ts';
import { gainFall } from '../../src/signal/sweep/gain-fall.ts';
import { check, checkList } from './checks.ts';
import { normal } from './signals.ts';

const drives = (low: number, high: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1)));

/** Harmonics of y = x + k2·x² + k3·x³ driven by a cosine of amplitude A, from the expansion of its powers. */
function polynomial(k2: number, k3: number) {
  return (amplitude: number) => {
    const first = amplitude + 0.75 * k3 * amplitude ** 3;
    const [second, third] = [(k2 * amplitude ** 2) / 2, (k3 * amplitude ** 3) / 4];
    return {
      powerW: first ** 2,
      second: second / first,
      third: third / first,
      thd: Math.hypot(second, third) / first,
    };
  };
}

function sweepOf(inputV: Float64Array, circuit: ReturnType<typeof polynomial>) {
  const points = Array.from(inputV, circuit);
  const column = (pick: (point: (typeof points)[number]) => number) => Float64Array.from(points, pick);
  return {
    inputV,
    powerW: column(({ powerW }) => powerW),
    thd: column(({ thd }) => thd),
    harmonics: [
      { order: 2, ratio: column(({ second }) => second) },
      { order: 3, ratio: column(({ third }) => third) },
    ],
  };
}

describe('the slope of a harmonic against level', () => {
  const sweep = sweepOf(drives(0.01, 1, 60), polynomial(0.01, 0.001));

  it('of a polynomial is one decibel per decibel for the second and two for the third', () => {
    const [, second, third] = levelSweepDetails(sweep).laws;
    // The fundamental grows by 0.75·k3·A², under a thousandth at A = 1; the fit over forty decibels feels far less.
    expect(second).toMatchObject({ order: 2, clean: true, leaves: 'end' });
    expect(Math.abs((second?.slope ?? 0) - 1)).toBeLessThan(1e-3);
    expect(third).toMatchObject({ order: 3, clean: true });
    expect(Math.abs((third?.slope ?? 0) - 2)).toBeLessThan(1e-3);
  });

  it('holds over the whole sweep where nothing disturbs it', () => {
    const [, second] = levelSweepDetails(sweep).laws;
    expect(second?.rangeW?.[0]).toBe(sweep.powerW[0]);
    expect(second?.rangeW?.[1]).toBe(sweep.powerW.at(-1));
    expect(second?.points).toBe(60);
  });

  it('is found above the noise, inside its own interval, and the range begins where the noise ends', () => {
    const noise = normal(7);
    const floor = 5e-7;
    const noisy = sweep.harmonics.map(({ order, ratio }) => ({
      order,
      ratio: ratio.map((value, i) =>
        Math.hypot(
          value + (floor * noise()) / (sweep.inputV[i] ?? 1),
          (floor * noise()) / (sweep.inputV[i] ?? 1),
        ),
      ),
    }));
    const [second, third] = levelSweepDetails({ ...sweep, thd: new Float64Array(0), harmonics: noisy }).laws;
    for (const [law, slope] of [
      [second, 1],
      [third, 2],
    ] as const) {
      expect(law?.clean).toBe(true);
      // 95 % intervals, widened by half: the seed is fixed, and the choice of the run costs a little.
      const half = 1.5 * (((law?.slopeHigh ?? 0) - (law?.slopeLow ?? 0)) / 2);
      expect(Math.abs((law?.slope ?? 0) - slope)).toBeLessThan(half);
    }
    // The third stands one to one with its noise where k3·A³/4 = floor, at A = 0.126, and clear of it above.
    expect(third?.rangeW?.[0]).toBeGreaterThan(0.02);
  });

  it('of noise alone, which falls with the level, is no law', () => {
    const noise = normal(3);
    const thd = sweep.inputV.map((volts) => (1e-4 * Math.hypot(noise(), noise(), noise(), noise())) / volts);
    const [law] = levelSweepDetails({ inputV: sweep.inputV, powerW: sweep.powerW, thd }).laws;
    expect(law).toMatchObject({ order: null, slope: null, rangeW: null });
  });

  it('tells a second that grows too fast', () => {
    const ratio = sweep.inputV.map((volts) => 0.01 * volts ** 1.6);
    const [law] = levelSweepDetails({ ...sweep, thd: ratio, harmonics: [{ order: 2, ratio }] }).laws.slice(1);
    expect(law?.clean).toBe(false);
    expect(law?.slope).toBeCloseTo(1.6, 2);
  });

  it('takes many thousand readings without taking long', () => {
    const long = sweepOf(drives(0.01, 1, 20_000), polynomial(0.01, 0.001));
    const started = performance.now();
    const [, second] = levelSweepDetails(long).laws;
    // A pairwise comparison of all readings would take minutes.
    expect(performance.now() - started).toBeLessThan(3000);
    expect(second?.slope).toBeCloseTo(1, 3);
  });
});

/** Ideal clipper of a sine at ±1, driven `times` beyond the onset: rms, fundamental and THD in closed form. */
function clipper(times: number) {
  if (times <= 1) return { powerW: times * times, thd: 0 };
  const limit = 1 / times;
  const angle = Math.asin(limit);
  const first = (2 / Math.PI) * (angle + limit * Math.sqrt(1 - limit * limit));
  const square =
    (2 / Math.PI) * (angle / 2 - Math.sin(2 * angle) / 4 + (Math.PI / 2 - angle) * limit * limit);
  return { powerW: 2 * square * times * times, thd: Math.sqrt(Math.max(0, (2 * square) / first ** 2 - 1)) };
}

describe('the onset of clipping', () => {
  const inputV = drives(0.05, 1.5, 3000);
  const points = Array.from(inputV, clipper);
  const powerW = Float64Array.from(points, ({ powerW: watts }) => watts);

  it.each([0.99, 0.95, 0.9])('is where the clipper at %d lifts THD to 1.5 times its law', (limit) => {
    // A second harmonic in proportion to the amplitude beside the clipper's: at this drive the sum is 1.5 times it.
    const clipped = check('closed-forms', `clipper at ${limit}: THD`);
    const atOnset = clipped / Math.sqrt(1.5 ** 2 - 1);
    const power = 2 * (check('closed-forms', `clipper at ${limit}: rms`) / limit) ** 2;
    const law = (watts: number) => atOnset * Math.sqrt(watts / power);
    const thd = Float64Array.from(points, ({ powerW: watts, thd: own }) => Math.hypot(own, law(watts)));
    const { clippingOnset } = levelSweepDetails({ inputV, powerW, thd });
    // The line is fitted over forty times the range above it and ends where THD is 0.75 dB high: 1 % of power.
    expect(Math.abs((clippingOnset?.powerW ?? 0) / power - 1)).toBeLessThan(0.01);
  });

  it('is not where a third harmonic overtakes the second', () => {
    const mixed = sweepOf(drives(0.02, 3, 80), polynomial(0.01, 0.02));
    expect(levelSweepDetails(mixed).clippingOnset).toEqual({ powerW: null, absence: 'stays below' });
  });

  it('needs a law to depart from', () => {
    const thd = Float64Array.from(points, ({ thd: own }) => own);
    expect(levelSweepDetails({ inputV, powerW, thd }).clippingOnset).toMatchObject({ powerW: null });
    expect(levelSweepDetails({ inputV, powerW }).clippingOnset).toBeNull();
  });
});

describe('the fall of the gain', () => {
  const readings = Array.from(drives(0.01, 2.5, 2000), (inputV) => ({
    inputV,
    powerW: clipper(inputV).powerW,
  }));

  it.each([0.95, 0.9, 0.8])('of the clipper at %d is that of its rms in closed form', (limit) => {
    const rms = check('closed-forms', `clipper at ${limit}: rms`);
    // The gain of a small signal is √½ of a sine's amplitude, and total rms is what a meter reads.
    const drop = -20 * Math.log10(rms * Math.SQRT2);
    const power = 2 * (rms / limit) ** 2;
    // 800 points to a decade: straight runs miss the curve by less than 1e-5.
    expect(Math.abs((gainFall(readings, drop).powerW ?? 0) / power - 1)).toBeLessThan(2e-5);
  });

  it('is withheld without input, without small signals and where it does not happen', () => {
    expect(gainFall(null)).toMatchObject({ powerW: null, absence: 'no input' });
    expect(gainFall(readings.slice(-20))).toMatchObject({ powerW: null, absence: 'no small signal' });
    expect(gainFall(readings.slice(0, 1500))).toMatchObject({ powerW: null, absence: 'stays above' });
  });
});

it('the Student factor is that of table G.2 of the GUM within two thousandths', () => {
  const expected = checkList('sweeps', 'Student, 95 %, two-sided: 1, 2, 3, 4, 5, 9, 19 degrees');
  [1, 2, 3, 4, 5, 9, 19].forEach((freedom, i) => {
    // The expansion is poorest at three degrees: 0.12 %.
    expect(Math.abs(studentTwoSided95(freedom) / (expected[i] ?? 0) - 1)).toBeLessThan(2e-3);
  });
  expect(studentTwoSided95(0)).toBe(Number.POSITIVE_INFINITY);
});
