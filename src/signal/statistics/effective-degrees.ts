import { studentTwoSided95 } from './student.ts';

/** One independent part of an uncertainty. */
export interface UncertaintyPart {
  /** Standard uncertainty, all parts in one unit. */
  standard: number;
  /** Degrees of freedom behind it; infinite where it is stated and not estimated. */
  freedom: number;
}

/** Several independent parts together. */
export interface CombinedUncertainty {
  standard: number;
  /** Effective degrees of freedom; infinite where no part is an estimate. */
  freedom: number;
  /** Half width of the 95 % interval. */
  half95: number;
}

/**
 * Independent parts of an uncertainty as one: root sum of squares, effective degrees of freedom, 95 % half width by
 * Student's t at these degrees (below three at the whole number below). Infinite with less than one degree.
 * @source JCGM 100:2008, 5.1.2; G.4.1, equation G.2b (Welch, Satterthwaite); G.4.2 and table G.2.
 */
export function combinedUncertainty(parts: readonly UncertaintyPart[]): CombinedUncertainty {
  const standard = Math.hypot(...parts.map((part) => part.standard));
  const shares = parts.map((part) => (standard > 0 ? (part.standard / standard) ** 4 / part.freedom : 0));
  const share = shares.reduce((sum, one) => sum + one, 0);
  const freedom = share > 0 ? 1 / share : Number.POSITIVE_INFINITY;
  return { standard, freedom, half95: standard * studentTwoSided95(freedom) };
}

/**
 * 95 % half width of parts that are estimated from few readings and parts that are stated: the half widths of both kinds
 * as a root sum of squares. Effective degrees over all parts would be narrower and, with two or three readings, hold the
 * truth in only 88 % and 92 %, as a scatter that happens to be small then takes the degrees of the stated part.
 * @source G. Y. Zou, A. Donner, Stat. Med. 27:1693 (2008), from memory, for limits of a sum from those of its terms;
 * coverage by simulation in tests/figures/repeats.test.ts.
 */
export function cautiousHalf95(estimated: readonly UncertaintyPart[], stated: readonly number[]): number {
  const normal = stated.map((standard) => ({ standard, freedom: Number.POSITIVE_INFINITY }));
  return Math.hypot(combinedUncertainty(estimated).half95, combinedUncertainty(normal).half95);
}
