import type { Figure } from '../../src/figures/index.ts';

/** A figure with this value and these members. */
export function figureOf(id: string, value: number | null, members: Partial<Figure> = {}): Figure {
  return {
    ...{ id, value, unit: '1', conditions: {} },
    provenance: { file: 'tone.csv', sha256: null, lines: null, method: 'thd', settings: {} },
    ...members,
  };
}

/** A figure with a symmetric interval of 95 % from its standard uncertainty. */
export const withNoise = (id: string, value: number, standard: number, members: Partial<Figure> = {}) =>
  figureOf(id, value, {
    low: value - 1.959963984540054 * standard,
    high: value + 1.959963984540054 * standard,
    ...members,
  });
