import { describe, expect, it } from 'vitest';
import { decadeAspects, levelAspects, proportion } from '../../src/charts/aspect.ts';
import { type Axis, along, below } from '../../src/charts/axis.ts';
import {
  type ChartSize,
  harmonicSpectrum,
  harmonicsAgainstFrequency,
  response,
  thdAgainstFrequency,
} from '../../src/charts/index.ts';
import {
  linearTicks,
  logTicks,
  plainTick,
  prefixedTick,
  roundDomain,
  roundLogDomain,
  withNamed,
} from '../../src/charts/ticks.ts';
import { harmonics, oneResponse, oneThd, sizes, spectrumData, twoResponses, twoThd } from './samples.ts';
import { chartOf } from './support.ts';

const log = (low: number, high: number, length: number): Axis => ({
  kind: 'log',
  domain: [low, high],
  length,
});
const linear = (low: number, high: number, length: number): Axis => ({
  kind: 'linear',
  domain: [low, high],
  length,
});

describe('an axis', () => {
  // Positions are exact but for rounding in the logarithm, 1e-9 pixels.
  it('puts every decade of a logarithmic axis at the same distance', () => {
    const axis = log(20, 20_000, 300);
    expect(along(axis, 20)).toBeCloseTo(0, 9);
    expect(along(axis, 200)).toBeCloseTo(100, 9);
    expect(along(axis, 20_000)).toBeCloseTo(300, 9);
    expect(below(axis, 20_000)).toBeCloseTo(0, 9);
  });
});

describe('logTicks(axis)', () => {
  it('rules decades with their 2 and 5', () => {
    expect(logTicks(log(10, 1000, 600), prefixedTick).values).toEqual([10, 20, 50, 100, 200, 500, 1000]);
  });

  it('numbers only decades where there is no room for more', () => {
    expect(logTicks(log(10, 100_000, 160), prefixedTick).labelled).toEqual([10, 100, 1000, 10_000, 100_000]);
  });

  it('rules every whole multiple of an axis of about one decade', () => {
    expect(logTicks(log(1500, 9000, 600), prefixedTick).values).toEqual([
      2000, 3000, 4000, 5000, 6000, 7000, 8000, 9000,
    ]);
  });

  it('prints percentages without exponent', () => {
    const { labelled } = logTicks(log(0.01, 10, 400), plainTick, true);
    expect(labelled.map(plainTick.text)).toEqual([
      '0.01',
      '0.02',
      '0.05',
      '0.1',
      '0.2',
      '0.5',
      '1',
      '2',
      '5',
      '10',
    ]);
  });
});

describe('linearTicks(axis, count)', () => {
  it('steps by 1, 2 or 5 times a power of ten', () => {
    expect(linearTicks(linear(-1, 1, 100), 4).values).toEqual([-1, -0.5, 0, 0.5, 1]);
    expect(linearTicks(linear(0, 160, 100), 8).values).toEqual([0, 20, 40, 60, 80, 100, 120, 140, 160]);
  });

  it('are few where steps are lost beside the size of the values', () => {
    expect(linearTicks(linear(1e18, 1e18 + 300, 100), 8).values.length).toBeLessThan(25);
    expect(linearTicks(linear(1e18, 1e18, 100), 8).values).toEqual([]);
  });
});

describe('domains open outward to round values', () => {
  it('of linear axes', () => {
    expect(roundDomain(-0.96, 0.94, 4)).toEqual([-1, 1]);
    expect(roundDomain(3, 3 + 4e-16, 4)).toEqual(roundDomain(3, 3, 4)); // one value but for rounding
  });

  // Powers of ten are not exact in binary: equal to 12 digits.
  it('of logarithmic axes', () => {
    const [low, high] = roundLogDomain(0.06, 0.42);
    expect(low).toBeCloseTo(0.05, 12);
    expect(high).toBeCloseTo(0.5, 12);
  });
});

describe('withNamed(ticks, axis, named)', () => {
  it('numbers named values and lets round ones beside them give way', () => {
    const axis = linear(-20, 5, 250);
    const { values, labelled } = withNamed(linearTicks(axis, 5), axis, [-1, -3]);
    expect(values).toEqual(expect.arrayContaining([-1, -3]));
    expect(labelled).toContain(-3);
    expect(labelled).toContain(0);
    expect(labelled).not.toContain(-1);
  });
});

describe('proportion', () => {
  it('offers the ratios of IEC 60263:2020: 10, 20, 25, 50 dB (4.1) and 0.5, 1, 1.25, 2.5 decades (4.2) per decade', () => {
    expect(levelAspects).toEqual([10, 20, 25, 50]);
    expect(decadeAspects).toEqual([0.5, 1, 1.25, 2.5]);
  });

  it('shows all of the span where the height allows', () => {
    const { aspect, unitLength, span } = proportion({
      aspects: levelAspects,
      span: 40,
      decadeLength: 150,
      height: 270,
    });
    expect(aspect).toBe(20);
    expect(unitLength).toBe(7.5);
    expect(span).toBe(40);
  });

  it('shows more where the plot were flat, and less where it were a tower', () => {
    expect(
      proportion({ aspects: levelAspects, span: 4, decadeLength: 150, height: 270 }).span,
    ).toBeGreaterThan(4);
    expect(
      proportion({ aspects: levelAspects, span: 4000, decadeLength: 150, height: 270 }).span,
    ).toBeLessThan(4000);
  });
});

type Channel = { scale: { domain: [number, number]; range: [number, number] } };

/** Units of the vertical axis (decibels or decades) that are as long as one decade of frequency. */
function aspectOf(
  make: (size: ChartSize) => Parameters<typeof chartOf>[0],
  size: ChartSize,
  log: boolean,
): number {
  const { spec } = chartOf(make(size));
  const { x, y } = (
    spec.layer.find(
      (layer) => 'encoding' in layer && JSON.stringify(layer).includes('"curve"'),
    ) as unknown as {
      encoding: Record<'x' | 'y', Channel>;
    }
  ).encoding;
  const decadeLength =
    Math.abs(x.scale.range[1] - x.scale.range[0]) / Math.log10(x.scale.domain[1] / x.scale.domain[0]);
  const [low, high] = y.scale.domain;
  const span = log ? Math.log10(high / low) : high - low;
  return (decadeLength * span) / Math.abs(y.scale.range[1] - y.scale.range[0]);
}

describe.each(sizes)('what is against frequency keeps a ratio of IEC 60263 (%s)', (size) => {
  // Within 1e-9 of the ratio: the axis lengths are not rounded.
  it.each([
    ['response', () => response(oneResponse, size)],
    ['two responses', () => response(twoResponses, size)],
    ['spectrum', () => harmonicSpectrum(spectrumData(240), size)],
  ] as const)('level: %s', (_, make) => {
    expect(levelAspects.some((aspect) => Math.abs(aspectOf(make, size, false) / aspect - 1) < 1e-9)).toBe(
      true,
    );
  });

  it.each([
    ['THD', () => thdAgainstFrequency(oneThd, size)],
    ['two THD', () => thdAgainstFrequency(twoThd, size)],
    ['harmonics', () => harmonicsAgainstFrequency(harmonics, size)],
  ] as const)('percentage: %s', (_, make) => {
    expect(decadeAspects.some((aspect) => Math.abs(aspectOf(make, size, true) / aspect - 1) < 1e-9)).toBe(
      true,
    );
  });
});
