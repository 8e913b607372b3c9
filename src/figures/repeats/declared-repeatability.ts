import { combinedUncertainty } from '../../signal/index.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import type { Measured } from './difference.ts';

/** How far captures set up anew scatter, as a maker found it earlier; not found in the captures that it is used for. */
export interface DeclaredRepeatability {
  /** Ids of figures; `harmonics` stands for every single one. */
  figures: readonly string[];
  /** Standard deviation of one capture, or half of its 95 % interval. */
  stated: 'standard deviation' | '95 % interval';
  /** Its size: in unit '1' a share of the value, else in the figure's own unit. */
  size: { value: number; unit: string };
  /** Captures that it was found from. */
  captures: number;
  /** Which captures these were. */
  from: string;
}

/** True for a figure that a declaration names. */
export const declares = ({ figures }: Pick<DeclaredRepeatability, 'figures'>, id: string): boolean =>
  figures.includes(id) || (figures.includes('harmonics') && /^harmonic-\d+$/.test(id));

/** True where a size means something for a figure: no share of decibels or of an angle, no amount of another unit. */
export function sizeSuits(unit: string, figure: Pick<Figure, 'id' | 'unit'>): boolean {
  const isRelative = definitionOf(figure.id)?.display !== 'decibel' && figure.unit !== '°';
  return unit === '1' ? isRelative : unit === figure.unit && figure.unit !== '';
}

/**
 * The figure of a single capture, with the scatter that was declared for it.
 * @source JCGM 100:2008, 4.3.4: the standard deviation behind an interval of stated coverage; Student's t for the
 * captures that it was found from.
 */
export function declaredMeasured(figure: Figure, declared: readonly DeclaredRepeatability[]): Measured {
  const single: Measured = { figure, count: 1, repeatability: null };
  const found = declared.find((one) => declares(one, figure.id));
  if (found === undefined || figure.value === null || !sizeSuits(found.size.unit, figure)) return single;
  const freedom = found.captures - 1;
  const size = found.size.unit === '1' ? found.size.value * Math.abs(figure.value) : found.size.value;
  const unit = combinedUncertainty([{ standard: 1, freedom }]).half95;
  const standardDeviation = found.stated === '95 % interval' ? size / unit : size;
  return standardDeviation > 0
    ? { ...single, repeatability: { standardDeviation, freedom, isDeclared: true } }
    : single;
}
