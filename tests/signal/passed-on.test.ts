import { describe, expect, it } from 'vitest';
import {
  type ChannelSummary,
  type SweptGain,
  subtractPassedOn,
  summariseWaveform,
} from '../../src/signal/index.ts';
import { binomialRange } from '../simulation/binomial.ts';
import { sum, tone, whiteNoise } from './signals.ts';

const rateHz = 48_000;
const length = 4800;
const hertz = 1003;

/** A circuit of gain 8 that inverts, with a high-pass of first order at 700 Hz and a low-pass at 6 kHz. */
function gainAt(frequency: number): { size: number; phase: number } {
  const [low, high] = [700 / frequency, frequency / 6000];
  return {
    size: 8 / Math.hypot(1, low) / Math.hypot(1, high),
    phase: Math.PI + Math.atan(low) - Math.atan(high),
  };
}

/** The circuit swept, its phase printed within half a turn as instruments do. */
function swept(points = 200, from = 200, to = 20_000): SweptGain {
  const frequencyHz = Float64Array.from(
    { length: points },
    (_, i) => from * (to / from) ** (i / (points - 1)),
  );
  return {
    frequencyHz,
    level: frequencyHz.map((at) => gainAt(at).size),
    phaseDeg: frequencyHz.map((at) => {
      const degrees = (180 / Math.PI) * gainAt(at).phase;
      return degrees > 180 ? degrees - 360 : degrees;
    }),
  };
}

const stimulusLines = [0.5, 0.01, 0.004, 0.002];
const stimulusPhases = [0.4, 1.9, -0.7, 2.5];
/** What the circuit adds at its output, re the fundamental there, in phases of its own. */
const addedLines = [0, 0.02, 0, 0.003];
const addedPhases = [0, -2.1, 0, 0.6];

interface Noises {
  input: number;
  output: number;
  seed: number;
}

/** Summaries of both channels of such a circuit. */
function measured({ input, output, seed }: Noises): [ChannelSummary, ChannelSummary] {
  const frequency = hertz / rateHz;
  const outputs = stimulusLines.map((amplitude, i) => amplitude * gainAt((i + 1) * hertz).size);
  const phases = stimulusPhases.map((phase, i) => phase + gainAt((i + 1) * hertz).phase);
  const added = addedLines.map((ratio) => ratio * (outputs[0] ?? 0));
  const { channels } = summariseWaveform(
    [
      {
        ...{ name: 'in', role: 'stimulus', unit: 'V' },
        values: sum(
          tone(length, { frequency, amplitudes: stimulusLines, phases: stimulusPhases }),
          whiteNoise(length, input, seed),
        ),
      },
      {
        ...{ name: 'out', role: 'response', unit: 'V' },
        values: sum(
          tone(length, { frequency, amplitudes: outputs, phases }),
          tone(length, { frequency, amplitudes: added, phases: addedPhases }),
          whiteNoise(length, output, seed + 1),
        ),
      },
    ],
    rateHz,
  );
  const [first, second] = channels;
  if (!first || !second) throw new Error('no channels');
  return [first, second];
}

const still: Noises = { input: 1e-7, output: 1e-7, seed: 3 };

describe('subtractPassedOn', () => {
  it('leaves what the circuit added, in size and phase, whatever it passed on', () => {
    const found = subtractPassedOn(...measured(still), swept());
    const [second, third, fourth] = found?.harmonics ?? [];
    // Between 200 points over two decades the curves of a first-order filter bend by some 1e-5.
    expect(second?.ratio).toBeCloseTo(0.02, 5);
    expect(third?.ratio).toBeLessThan(2e-5);
    expect(fourth?.ratio).toBeCloseTo(0.003, 5);
    // Less twice the phase of the fundamental at the output.
    const fundamental = (stimulusPhases[0] ?? 0) + gainAt(hertz).phase;
    const expected = (180 / Math.PI) * ((addedPhases[1] ?? 0) - 2 * fundamental);
    const apart = Math.abs((((second?.relativePhaseDeg ?? 0) - expected) % 360) + 540) % 360;
    expect(Math.abs(apart - 180)).toBeLessThan(0.05);
    expect(found?.total?.ratio).toBeCloseTo(Math.hypot(0.02, 0.003), 5);
    expect(found?.leftOut).toEqual([]);
  });

  it('lies within the bounds that are given without the sweep where the gain is that of the fundamental', () => {
    const [stimulus, response] = measured(still);
    const level = { ...swept(), level: swept().level.fill(8) };
    const found = subtractPassedOn(stimulus, response, level)?.harmonics ?? [];
    found.forEach(({ order, ratio }) => {
      const [s = 0, r = 0] = [stimulus, response].map(
        ({ harmonics }) => harmonics.find((one) => one.order === order)?.ratio ?? 0,
      );
      // Rounding of doubles.
      expect(ratio).toBeGreaterThanOrEqual(Math.abs(r - s) - 1e-12);
      expect(ratio).toBeLessThanOrEqual(r + s + 1e-12);
    });
  });

  it('leaves out the orders beyond the sweep, and all where it does not reach the fundamental', () => {
    const short = subtractPassedOn(...measured(still), swept(100, 200, 3500));
    expect(short?.harmonics.map(({ order }) => order)).toEqual([2, 3]);
    expect(short?.leftOut).toEqual([4, 5, 6, 7, 8, 9, 10]);
    expect(subtractPassedOn(...measured(still), swept(50, 2000, 20_000))).toBeNull();
    const [stimulus, response] = measured(still);
    expect(subtractPassedOn({ ...stimulus, fundamental: null }, response, swept())).toBeNull();
    const folded = response.harmonics.map((one) => (one.order === 2 ? { ...one, foldedOrders: [30] } : one));
    expect(subtractPassedOn(stimulus, { ...response, harmonics: folded }, swept())?.leftOut).toEqual([2]);
  });

  it('holds the truth in its intervals where both channels are noisy', () => {
    const draws = 200;
    const truths = [0.02, 0, 0.003];
    const held = [0, 0, 0];
    for (let i = 0; i < draws; i++) {
      const found = subtractPassedOn(...measured({ input: 0.005, output: 0.05, seed: 100 + 2 * i }), swept());
      truths.forEach((truth, j) => {
        const { low = 1, high = 0 } = found?.harmonics[j] ?? {};
        if (low <= truth && truth <= high) held[j] = (held[j] ?? 0) + 1;
      });
    }
    // At least 95 %, less what the binomial allows at 99.9 %.
    held.forEach((count) => {
      expect(count).toBeGreaterThanOrEqual(binomialRange(draws, 0.95).least);
    });
  });
});
