import { expect, test } from 'vitest';
import { slate } from '../../src/demo/slate.ts';
import { slateTwoTones, type TonePair } from '../../src/demo/slate-two-tones.ts';
import { rmsOf } from '../../src/demo/tone.ts';

const equal: TonePair = {
  baseHz: 1000,
  tones: [
    { multiple: 19, peakV: 1 },
    { multiple: 20, peakV: 1 },
  ],
  points: 1024,
};

test('one tone alone through the model of two is the tone of the model of one', () => {
  const pair: TonePair = {
    ...equal,
    tones: [
      { multiple: 1, peakV: 2 },
      { multiple: 20, peakV: 0 },
    ],
  };
  // The model of two leaves out the twentieth harmonic's share of the loop; the low orders do not meet it. Both sample
  // the same smooth error, 128 and 1024 times a period.
  for (const order of [1, 2, 3, 5]) {
    const one = rmsOf(slate(0.04, 1000, Math.SQRT2), order);
    expect(Math.abs(rmsOf(slateTwoTones(0.04, pair), order) - one)).toBeLessThan(1e-7);
  }
});

test('the third-order lines of Slate fall with the idle current, and its second order is far below them', () => {
  const line = (idleA: number, multiple: number) => rmsOf(slateTwoTones(idleA, equal), multiple);
  for (const multiple of [18, 21]) {
    expect(line(0.04, multiple)).toBeGreaterThan(4 * line(0.08, multiple));
    expect(line(0.08, multiple)).toBeGreaterThan(4 * line(0.15, multiple));
  }
  expect(line(0.04, 18)).toBeGreaterThan(10 * line(0.04, 1));
});
