import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { summariseWaveform, type Transfer } from '../../src/signal/index.ts';
import { sum, tone, whiteNoise } from './signals.ts';

const rateHz = 48_000;
const length = 4800;

interface Pair {
  input: Float64Array;
  output: Float64Array;
  unit?: string;
}

function measured({ input, output, unit = 'V' }: Pair) {
  return summariseWaveform(
    [
      { name: 'in', role: 'stimulus', unit: 'V', values: input },
      { name: 'out', role: 'response', unit, values: output },
    ],
    rateHz,
  );
}

function transferOf(pair: Pair): Transfer {
  const [transfer] = measured(pair).transfers;
  if (!transfer) throw new Error('no transfer');
  return transfer;
}

const noisy = (frequency: number, amplitude: number, phase: number, seed: number) =>
  sum(tone(length, { frequency, amplitudes: [amplitude], phases: [phase] }), whiteNoise(length, 1e-3, seed));

const apart = (a: number, b: number) => Math.abs(((((a - b) % 360) + 540) % 360) - 180);

describe('transfer between stimulus and response', () => {
  it('has gain and phase of a delay with gain', () => {
    const made = fc.record({
      hertz: fc.double({ min: 200, max: 5000, noNaN: true }),
      gain: fc.double({ min: 0.2, max: 30, noNaN: true }),
      turn: fc.double({ min: -179, max: 179, noNaN: true }),
      start: fc.double({ min: 0, max: 6.28, noNaN: true }),
    });
    fc.assert(
      fc.property(made, ({ hertz, gain, turn, start }) => {
        const lines = (amplitude: number, phase: number) =>
          tone(length, { frequency: hertz / rateHz, amplitudes: [amplitude], phases: [phase] });
        const found = transferOf({
          input: lines(1, start),
          output: lines(gain, start + (turn * Math.PI) / 180),
        });
        // No noise: the arithmetic of two fits.
        expect(Math.abs(found.gain / gain - 1)).toBeLessThan(1e-8);
        expect(apart(found.phaseDeg, turn)).toBeLessThan(1e-6);
      }),
      { numRuns: 40, seed: 1 },
    );
  });

  it('has an uncertainty that answers for the spread of both', () => {
    const found = Array.from({ length: 200 }, (_, seed) =>
      transferOf({
        input: noisy(0.0213, 0.1, 1, 2 * seed + 1),
        output: noisy(0.0213, 0.2, 1.5, 2 * seed + 2),
      }),
    );
    const held = found.filter(
      ({ gain, gainUncertainty, coverageFactor }) => Math.abs(gain - 2) <= coverageFactor * gainUncertainty,
    ).length;
    const phases = found.filter(
      ({ phaseDeg, phaseUncertaintyDeg, coverageFactor }) =>
        apart(phaseDeg, (0.5 * 180) / Math.PI) <= coverageFactor * phaseUncertaintyDeg,
    ).length;
    // Of 200 at 95 %: fewer than 180 or all of a factor too wide would show here.
    for (const count of [held, phases]) {
      expect(count).toBeGreaterThanOrEqual(180);
      expect(count).toBeLessThanOrEqual(199);
    }
  });

  it('turns by half a turn when the response is turned over, and a constant does not matter', () => {
    const pair = { input: noisy(0.0213, 0.1, 1, 5), output: noisy(0.0213, 0.2, 1.5, 6) };
    const [plain, turned] = [pair, { ...pair, output: pair.output.map((value) => 5 - value) }].map(
      transferOf,
    );
    expect(turned?.gain).toBeCloseTo(plain?.gain ?? 0, 9);
    expect(apart((turned?.phaseDeg ?? 0) + 180, plain?.phaseDeg ?? 0)).toBeLessThan(1e-6);
  });

  it('between unlike units has that unit', () => {
    expect(transferOf({ input: noisy(0.02, 1, 0, 1), output: noisy(0.02, 0.01, 0, 2), unit: 'A' }).unit).toBe(
      'A/V',
    );
  });

  it('between lines of unlike frequency does not exist, and a warning says so', () => {
    const summary = measured({ input: noisy(0.02, 1, 0, 1), output: noisy(0.03, 1, 0, 2) });
    expect(summary.transfers).toEqual([]);
    expect(summary.warnings.map(({ rule }) => rule)).toContain('fundamentals-differ');
  });

  it('pairs as many responses with as many stimuli, in order', () => {
    const names = ['left in', 'right in', 'left out', 'right out'];
    const { transfers } = summariseWaveform(
      names.map((name, i) => ({
        ...{ name, unit: 'V', values: noisy(0.02, i + 1, 0, i + 1) },
        role: name.endsWith('in') ? 'stimulus' : 'response',
      })),
      rateHz,
    );
    expect(transfers.map(({ stimulus, response }) => [stimulus, response])).toEqual([
      ['left in', 'left out'],
      ['right in', 'right out'],
    ]);
  });
});

describe('bounds of what was added', () => {
  it('hold it whatever the phase in which the stimulus’s harmonic arrives', () => {
    const made = fc.record({
      own: fc.double({ min: 0.001, max: 0.05, noNaN: true }),
      added: fc.double({ min: 0, max: 0.05, noNaN: true }),
      phases: fc.array(fc.double({ min: 0, max: 6.28, noNaN: true }), { minLength: 3, maxLength: 3 }),
      seed: fc.integer({ min: 1, max: 1e6 }),
    });
    fc.assert(
      fc.property(made, ({ own, added, phases: [a = 0, b = 0, c = 0], seed }) => {
        const lines = (amplitude: number, phase: number) =>
          tone(length, { frequency: 0.0213, amplitudes: [0, amplitude], phases: [0, phase] });
        const first = (amplitude: number) => tone(length, { frequency: 0.0213, amplitudes: [amplitude] });
        const found = transferOf({
          input: sum(first(1), lines(own, a), whiteNoise(length, 1e-6, seed)),
          output: sum(first(2), lines(2 * own, b), lines(2 * added, c), whiteNoise(length, 1e-6, seed + 1)),
        });
        const second = found.harmonics.find(({ order }) => order === 2);
        // Far from the noise, which the bounds allow for.
        expect(second?.added.low ?? 1).toBeLessThanOrEqual(added + 1e-7);
        expect(second?.added.high ?? 0).toBeGreaterThanOrEqual(added);
        expect(found.added?.low ?? 1).toBeLessThanOrEqual(added + 1e-6);
        expect(found.added?.high ?? 0).toBeGreaterThanOrEqual(added - 1e-6);
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it('are |h_r − h_s| and h_r + h_s where noise is nothing', () => {
    const lines = (amplitudes: number[]) => tone(length, { frequency: 0.0213, amplitudes });
    const { harmonics } = transferOf({ input: lines([1, 0.01]), output: lines([4, 0.12]) });
    // 3 % less or plus 1 %; the arithmetic of two fits.
    expect(harmonics[0]?.added.low).toBeCloseTo(0.02, 8);
    expect(harmonics[0]?.added.high).toBeCloseTo(0.04, 8);
  });
});
