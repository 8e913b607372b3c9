import { describe, expect, it } from 'vitest';
import { frequencySweepDetails } from '../../src/signal/index.ts';
import { bandMeans, ratioMeans } from '../../src/signal/sweep/band-means.ts';
import { fractionalOctaves } from '../../src/signal/sweep/fractional-octaves.ts';
import { checkList } from './checks.ts';

const grid = (low: number, high: number, count: number) =>
  Float64Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1)));
const curve = (axis: Float64Array, ratio: (hertz: number) => number) => ({
  axis,
  values: axis.map(ratio),
  between: 'power' as const,
});

describe('the bands of IEC 61260 (from memory), base ten', () => {
  const thirds = fractionalOctaves(3);

  it('have mid-band frequencies at exact powers of ten', () => {
    const expected = checkList('sweeps', 'third-octave mid-bands from 20 Hz to 100 Hz');
    const found = thirds.filter(({ midHz }) => midHz > 19 && midHz < 101).map(({ midHz }) => midHz);
    // Printed to twelve digits.
    expected.forEach((hertz, i) => {
      expect(Math.abs((found[i] ?? 0) / hertz - 1)).toBeLessThan(1e-11);
    });
    expect(found).toHaveLength(expected.length);
  });

  it('share their edges, those of the band at 1 kHz as published', () => {
    const band = thirds.find(({ nominalHz }) => nominalHz === 1000);
    const [low, high] = checkList('sweeps', 'third-octave edges at 1 kHz');
    // Printed to twelve digits.
    expect(band?.lowHz).toBeCloseTo(low ?? 0, 8);
    expect(band?.highHz).toBeCloseTo(high ?? 0, 6);
    for (const bands of [thirds, fractionalOctaves(1)]) {
      bands.slice(1).forEach(({ lowHz }, i) => {
        expect(lowHz).toBeCloseTo(bands[i]?.highHz ?? 0, 8);
      });
    }
  });

  it('carry their nominal names', () => {
    const octaves = fractionalOctaves(1).map(({ nominalHz }) => nominalHz);
    expect(octaves).toEqual([16, 31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000, 16_000, 31_500, 63_000]);
    expect(thirds.map(({ nominalHz }) => nominalHz).slice(3, 8)).toEqual([20, 25, 31.5, 40, 50]);
  });
});

describe('means over a band', () => {
  it('of a power of frequency are the closed integrals, however sparse the readings', () => {
    const [low, high] = [100, 1000];
    const means = ratioMeans(
      curve(Float64Array.of(50, 300, 2000), (hertz) => 1 / hertz),
      [low, high],
    );
    const width = Math.log(high / low);
    const energy = Math.sqrt((low ** -2 - high ** -2) / (2 * width));
    // Both are exact but for the rounding of logarithms.
    expect(Math.abs((means?.energy ?? 0) / energy - 1)).toBeLessThan(1e-12);
    expect(Math.abs((means?.geometric ?? 0) * Math.sqrt(low * high) - 1)).toBeLessThan(1e-12);
  });

  it('of a constant are the constant', () => {
    const means = ratioMeans(
      curve(grid(10, 1000, 9), () => 0.02),
      [20, 500],
    );
    expect(means?.energy).toBeCloseTo(0.02, 14);
    expect(means?.geometric).toBeCloseTo(0.02, 14);
  });

  it('next to a reading of zero have an energy and no logarithm', () => {
    const means = ratioMeans(
      { axis: Float64Array.of(10, 100), values: Float64Array.of(0, 0.03), between: 'power' },
      [10, 100],
    );
    // The ratio runs straight from nothing to 3 % over the logarithm: the mean of its square is a third of the end's.
    expect(means?.energy).toBeCloseTo(0.03 / Math.sqrt(3), 14);
    expect(means?.geometric).toBeNull();
  });

  it('exist only for bands wholly within the readings; the others are named with the reason', () => {
    const { bands, leftOut } = bandMeans(
      null,
      curve(grid(20, 20_000, 31), () => 0.01),
    );
    const octaves = bands.filter(({ band }) => band.fraction === 1).map(({ band }) => band.nominalHz);
    expect(octaves).toEqual([31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000]);
    expect(leftOut.map(({ band, because }) => [band.fraction, band.nominalHz, because])).toEqual([
      [1, 16, 'partly outside'],
      [1, 16_000, 'partly outside'],
      [3, 20, 'partly outside'],
      [3, 20_000, 'partly outside'],
    ]);
  });

  it('are not made of a line drawn through a band without a reading', () => {
    const { bands, leftOut } = bandMeans(
      2,
      curve(Float64Array.of(20, 25, 400, 1000), () => 0.01),
    );
    expect(bands.some(({ band }) => band.nominalHz === 100)).toBe(false);
    expect(leftOut.find(({ band }) => band.nominalHz === 100)?.because).toBe('no reading');
  });
});

describe('where distortion rises', () => {
  /** 1 % in the middle; in proportion to 1/f below 100 Hz and to f above 5 kHz. */
  const thd = (hertz: number) => 0.01 * Math.max(1, 100 / hertz, hertz / 5000);
  const frequencyHz = grid(20, 20_000, 601);
  const edges = frequencySweepDetails({ frequencyHz, thd: frequencyHz.map(thd) }).edges;

  it('is the frequency of twice the middle, and of each stated distortion on either side', () => {
    expect(edges?.midBandRatio).toBeCloseTo(0.01, 12);
    // Straight on log-log paper between the readings, so exact.
    expect(edges?.onset?.atHz).toBeCloseTo(50, 8);
    const at = (side: string, ratio: number) =>
      edges?.crossings.find((edge) => edge.side === side && edge.ratio === ratio);
    expect(at('low', 0.03)?.atHz).toBeCloseTo(100 / 3, 8);
    expect(at('high', 0.03)?.atHz).toBeCloseTo(15_000, 6);
    expect(at('low', 0.1)).toMatchObject({ atHz: null, absence: 'end below', end: { atHz: 20 } });
  });

  it('takes no notice of a bump inside the band, and says where all is above', () => {
    const bump = (hertz: number) => (hertz > 150 && hertz < 200 ? 0.05 : thd(hertz));
    const { edges: found } = frequencySweepDetails({ frequencyHz, thd: frequencyHz.map(bump) });
    expect(found?.onset?.atHz).toBeCloseTo(50, 8);
    const all = frequencySweepDetails({ frequencyHz, thd: frequencyHz.map(() => 0.02) }).edges;
    expect(all?.crossings[0]).toMatchObject({ ratio: 0.01, atHz: null, absence: 'always above' });
  });

  it('needs the whole middle of the band', () => {
    const high = grid(500, 20_000, 50);
    expect(frequencySweepDetails({ frequencyHz: high, thd: high.map(thd) }).edges).toMatchObject({
      midBandRatio: null,
      onset: null,
    });
    expect(frequencySweepDetails({ frequencyHz: high })).toEqual({ edges: null, bandMeans: [] });
  });
});
