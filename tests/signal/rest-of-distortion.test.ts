import { describe, expect, it } from 'vitest';
import { levelSweepFindings } from '../../src/figures/index.ts';
import { levelSweepDetails } from '../../src/signal/index.ts';
import { distortionMakeUp } from '../../src/signal/record/rest-of-distortion.ts';

const powers = Array.from({ length: 12 }, (_, i) => 0.001 * 4 ** i);
const column = (ratio: (powerW: number) => number) =>
  powers.map((powerW) => ({ powerW, ratio: ratio(powerW) }));
const second = (powerW: number) => 0.01 * Math.sqrt(powerW);
const third = (powerW: number) => 0.001 * powerW;
/** Noise of constant voltage, and orders that come with clipping above 1 kW. */
const noise = (powerW: number) => 0.0002 / Math.sqrt(powerW);
const clipped = (powerW: number) => (powerW > 1000 ? 2 : 0);
const total = (powerW: number) => Math.hypot(second(powerW), third(powerW), noise(powerW), clipped(powerW));
const single = [
  { order: 2, points: column(second) },
  { order: 3, points: column(third) },
];

describe('distortionMakeUp', () => {
  it('finds where the harmonics read are all of THD, and what they lack at either end', () => {
    const found = distortionMakeUp(column(total), single);
    // The noise has a twentieth of the square from 0.087 W down; the next reading above is 256 mW, the last below
    // clipping 262 W.
    expect(found).toMatchObject({ orders: [2, 3], rangeW: [powers[4], powers[9]] });
    // At 1 mW: noise of 0.632 %, second of 0.0316 %, third of 0.0001 %.
    const lowest = noise(0.001) ** 2 / total(0.001) ** 2;
    expect(found?.below?.share).toBeCloseTo(lowest, 12);
    const highest = powers[11] ?? 0;
    expect(found?.above).toMatchObject({ powerW: highest });
    expect(found?.above?.share).toBeCloseTo(
      (noise(highest) ** 2 + clipped(highest) ** 2) / total(highest) ** 2,
      12,
    );
  });

  it('says nothing without both columns in three rows, and leaves out rows that lack a harmonic', () => {
    expect(distortionMakeUp(column(total), [])).toBeNull();
    expect(distortionMakeUp([], single)).toBeNull();
    expect(distortionMakeUp(column(total).slice(0, 2), single)).toBeNull();
    const gap = [{ order: 2, points: column(second).slice(3) }];
    expect(distortionMakeUp(column(total), gap)?.below).toMatchObject({ powerW: powers[3] });
  });

  it('has no range where the harmonics read are never all of it', () => {
    const third = [{ order: 3, points: column(() => 1e-5) }];
    const found = distortionMakeUp(column(total), third);
    expect(found).toMatchObject({
      rangeW: null,
      below: { powerW: powers[0] },
      above: { powerW: powers[11] },
    });
  });

  it('is told in one sentence', () => {
    const values = (ratio: (powerW: number) => number) => Float64Array.from(powers, ratio);
    const sweep = {
      ...{ powerW: Float64Array.from(powers), thd: values(total) },
      harmonics: [
        { order: 2, ratio: values(second) },
        { order: 3, ratio: values(third) },
      ],
    };
    const sentence = levelSweepFindings(levelSweepDetails(sweep)).at(-1)?.replaceAll('\u00a0', ' ');
    expect(sentence).toBe(
      'The second and third make up THD from 260 mW to 260 W, all but a twentieth of its square; at 1.0 mW noise or other orders are 100 % of it; at 4.2 kW other orders are 18 % of it.',
    );
    const alone = { ...sweep, thd: values(second), harmonics: sweep.harmonics.slice(0, 1) };
    expect(levelSweepFindings(levelSweepDetails(alone)).at(-1)).toMatch(
      /^The second alone makes up THD from/,
    );
  });
});
