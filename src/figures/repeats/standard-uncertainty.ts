import type { Figure } from '../types.ts';

const normal95 = 1.959963984540054;

/** Half widths of the 95 % interval on both sides of the value; null where there is no interval. */
export function halvesOf({
  value,
  low,
  high,
}: Pick<Figure, 'value' | 'low' | 'high'>): { below: number; above: number } | null {
  if (value === null || low === undefined || high === undefined) return null;
  return { below: Math.max(0, value - low), above: Math.max(0, high - value) };
}

/**
 * Standard uncertainty that the record itself gives a figure, without the instrument's part: as stated, or half its
 * interval over the normal factor of 95 %. Null without an interval, and where the interval begins at zero, as it then
 * is not that of a value with so much noise about it.
 * @source JCGM 100:2008, 4.3.4, for the half width of an interval of stated coverage.
 */
export function recordUncertainty({
  low,
  high,
  random,
  systematic,
}: Pick<Figure, 'low' | 'high' | 'random' | 'systematic'>): number | null {
  if (random !== undefined) return random;
  if (systematic !== undefined || low === undefined || high === undefined || low === 0) return null;
  return (high - low) / 2 / normal95;
}

/** True for a figure that noise alone may have made; noise raises every such reading alike. */
export const noiseMayExplain = ({ low, random }: Pick<Figure, 'low' | 'random'>): boolean =>
  low === 0 && random === undefined;
