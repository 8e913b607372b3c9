import { type Complex, real, times } from '../output/complex.ts';
import type { Influence } from '../output/complex-period.ts';
import { phasors, samples, sumsOf } from './spectrum.ts';

/**
 * Rows of the linear system of a Newton step of harmonic balance, without its right-hand side: the change of each
 * miss per change of each unknown. Unknowns and misses are the averages first, then real and imaginary part of each
 * order's added voltage.
 * @source derivatives of the balance; product of a series with a cosine or sine by the shift of its spectrum
 */
export function balanceRows(
  /** By instant: of the load's current first, then of each flow. */
  influences: readonly (readonly Influence[])[],
  /** By order from 1 up. */
  excess: readonly Complex[],
): number[][] {
  const [first] = influences;
  const flows = (first?.length ?? 1) - 1;
  const series = (current: number, of: (influence: Influence) => number) =>
    influences.map((all) => {
      const influence = all[current];
      return influence ? of(influence) : 0;
    });
  const averages = Array.from({ length: flows }, (_, index) => index);
  const perAverage = (current: number) =>
    averages.map((index) => series(current, (one) => one.perAverage[index] ?? 0));
  return [
    ...averages.map((flow) =>
      flowRow(flow, perAverage(flow + 1), {
        perVolt: series(flow + 1, (one) => one.perVolt),
        orders: excess.length,
      }),
    ),
    ...orderRows(
      perAverage(0),
      series(0, (one) => one.perVolt),
      excess,
    ),
  ];
}

/** The mean of a flow less its average. */
function flowRow(
  flow: number,
  perAverage: readonly (readonly number[])[],
  { perVolt, orders }: { perVolt: readonly number[]; orders: number },
): number[] {
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / samples;
  const [, ...sums] = sumsOf(perVolt, orders);
  return [
    ...perAverage.map((values, index) => mean(values) - (index === flow ? 1 : 0)),
    ...sums.flatMap(({ re, im }) => [re / samples, im / samples]),
  ];
}

/** Added voltage of each order and what its current asks for, as two rows. */
function orderRows(
  perAverage: readonly (readonly number[])[],
  perVolt: readonly number[],
  excess: readonly Complex[],
): number[][] {
  const orders = excess.length;
  const byAverage = perAverage.map((values) => phasors(values, orders));
  const sums = sumsOf(perVolt, 2 * orders);
  const sum = (order: number): Complex => {
    const { re, im } = sums[Math.abs(order)] ?? real(0);
    return { re, im: order < 0 ? -im : im };
  };
  return excess.flatMap((ohm, index) => {
    const m = index + 1;
    const columns: Complex[] = byAverage.map((phasor) => times(ohm, phasor[m] ?? real(0)));
    for (let k = 1; k <= orders; k++) {
      const [below, above] = [sum(m - k), sum(m + k)];
      const even = { re: (below.re + above.re) / samples, im: (below.im + above.im) / samples };
      const odd = { re: (above.im - below.im) / samples, im: (below.re - above.re) / samples };
      columns.push(times(ohm, even), times(ohm, odd));
    }
    const own = byAverage.length + 2 * index;
    return [
      columns.map(({ re }, column) => re + (column === own ? 1 : 0)),
      columns.map(({ im }, column) => im + (column === own + 1 ? 1 : 0)),
    ];
  });
}
