import { definitionOf, type Figure, type Measured } from '../figures/index.ts';
import { printQuantity } from '../quantity/index.ts';

/** By how much: decibels, a share of the value compared with, or an amount in the figure's own unit. */
export type Margin =
  | { kind: 'decibels'; decibels: number }
  | { kind: 'share'; ratio: number }
  | { kind: 'amount'; value: number; unit: string };

/** The margin that a stated value is: decibels and per cent have a meaning of their own. */
export function marginOf(stated: { value: number; unit: string } | undefined): Margin | null {
  if (stated === undefined) return null;
  if (stated.unit === 'dB') return { kind: 'decibels', decibels: stated.value };
  return stated.unit === '1' ? { kind: 'share', ratio: stated.value } : { kind: 'amount', ...stated };
}

/** The margin as it is printed: "10 dB", "20 %", "2.00 W". */
export function marginText(margin: Margin): string {
  switch (margin.kind) {
    case 'decibels':
      return `${Number(margin.decibels.toPrecision(6))}\u00a0dB`;
    case 'share':
      return `${Number((100 * margin.ratio).toPrecision(6))}\u00a0%`;
    case 'amount': {
      const { number, unit } = printQuantity(margin.value, margin.unit);
      return `${number}\u00a0${unit}`;
    }
  }
}

const isInDecibels = ({ id }: Figure) => definitionOf(id)?.display === 'decibel';

/** True where a margin means something for a figure: no share of decibels, no amount of another unit. */
export function suits(margin: Margin, figure: Figure): boolean {
  if (isInDecibels(figure)) return margin.kind === 'decibels';
  if (margin.kind !== 'amount') return figure.unit !== '°';
  return margin.unit === figure.unit;
}

/** A figure moved down or up by a margin, with its interval and scatter. Decibels of powers count ten to the decade. */
export function moved(measured: Measured, margin: Margin | null, direction: -1 | 1): Measured {
  if (margin === null) return measured;
  const { figure } = measured;
  switch (margin.kind) {
    case 'amount':
      return shifted(measured, direction * margin.value);
    case 'share':
      return scaled(measured, 1 + direction * margin.ratio);
    case 'decibels': {
      if (isInDecibels(figure)) return shifted(measured, direction * margin.decibels);
      const decade = figure.unit === 'W' ? 10 : 20;
      return scaled(measured, 10 ** ((direction * margin.decibels) / decade));
    }
  }
}

function shifted({ figure, ...rest }: Measured, by: number): Measured {
  return {
    figure: { ...figure, ...mapped(figure, ['value', 'low', 'high'], (value) => value + by) },
    ...rest,
  };
}

function scaled({ figure, count, repeatability }: Measured, by: number): Measured {
  const keys = ['value', 'low', 'high', 'systematic', 'random'] as const;
  return {
    figure: { ...figure, ...mapped(figure, keys, (value) => value * by) },
    count,
    repeatability: repeatability && {
      ...repeatability,
      standardDeviation: repeatability.standardDeviation * by,
    },
  };
}

type Numbers = Partial<Record<'value' | 'low' | 'high' | 'systematic' | 'random', number>>;

/** The named numbers of a figure that it has, each changed. */
function mapped(
  figure: Figure,
  keys: readonly (keyof Numbers)[],
  change: (value: number) => number,
): Numbers {
  return Object.fromEntries(
    keys.flatMap((key) => {
      const value = figure[key];
      return value === undefined || value === null ? [] : [[key, change(value)]];
    }),
  );
}
