import { describe, expect, it } from 'vitest';
import { summariseWaveform } from '../../src/signal/index.ts';
import { channel, sum, tone, whiteNoise } from './signals.ts';

/** Median time in milliseconds of the summary of some channels of one length, after warming up. */
function medianMs(length: number, channels: number, rounds: number): number {
  const records = Array.from({ length: channels }, (_, i) =>
    channel(
      sum(
        tone(length, { frequency: 0.020_812_3, amplitudes: [1, 0.01, 0.003] }),
        whiteNoise(length, 0.001, i + 1),
      ),
      `channel ${i}`,
    ),
  );
  const times = Array.from({ length: rounds }, () => {
    const start = performance.now();
    summariseWaveform(records, 48_000);
    return performance.now() - start;
  }).sort((a, b) => a - b);
  return times[rounds >> 1] ?? 0;
}

describe('the time of a summary with ten harmonics', () => {
  const ordinary = medianMs(65_536, 2, 25);
  const long = medianMs(524_288, 2, 3);
  console.log(
    `summary of 65536 rows x 2 channels: ${ordinary.toFixed(1)} ms; of 524288: ${long.toFixed(0)} ms`,
  );

  it('is some 15 ms for 65,536 rows of two channels, and below 150 ms on a busy machine', () => {
    expect(ordinary).toBeLessThan(150);
  });

  it('grows little faster than the rows: eight times the rows take less than 40 times as long', () => {
    // Eight times as many in every pass, a tenth more for each doubling of a transform, caches that no longer hold a
    // record, and a machine that does other things as well. A method of quadratic time would take 64 times as long.
    expect(long / ordinary).toBeLessThan(40);
  });
});
