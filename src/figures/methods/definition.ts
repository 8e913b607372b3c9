import type { MethodId } from './methods.ts';

/** How a figure's value is printed. */
export type Display = 'percent' | 'quantity' | 'decibel' | 'plain';

/** What a named figure means; everything that names a figure reads it here. */
export interface FigureDefinition {
  id: string;
  /** Name in tables, on axes and in lists. */
  name: string;
  /** One sentence for a reader who does not know the word. */
  meaning: string;
  display: Display;
  /** Unit of the stored value; '1' for plain ratios. */
  unit: string;
  /** Significant digits printed where no interval decides. */
  digits: number;
  /** Which direction is commonly wanted; null where neither is better by itself. */
  better: 'lower' | 'higher' | null;
  /** Section of the methods page. */
  method: MethodId;
  /** True where it is contested what the figure is good for; it then stands apart from the others. */
  contested?: true;
}

/** A definition before the registry gives it its id. */
export type Definition = Omit<FigureDefinition, 'id'>;

/** A plain ratio, printed in per cent, of which less is commonly wanted. */
export const ratio = (name: string, meaning: string, method: MethodId): Definition => ({
  name,
  meaning,
  display: 'percent',
  unit: '1',
  digits: 3,
  better: 'lower',
  method,
});
