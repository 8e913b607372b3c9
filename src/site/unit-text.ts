import type { Figure } from '../figures/index.ts';

/** The unit of a figure for machines, where nothing may be left open: 1 for a plain number. */
export const unitText = ({ unit }: Pick<Figure, 'unit'>) => (unit === '' ? '1' : unit);
