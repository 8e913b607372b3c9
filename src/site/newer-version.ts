import type { Log, Version } from '../journal/types.ts';
import { type Price, sumOfPrices } from '../quantity/index.ts';
import { type DifferenceRow, measuredDifferences, type Source } from './measured-differences.ts';

/** A measured figure that is told apart between a version and a newer one. */
export interface ToldApart extends DifferenceRow {
  sources: readonly [Source, Source];
}

/** Figures that captures of both versions tell apart; those that cannot be are on the newer version's page. */
export function toldApart(logs: readonly Log[], newer: Version, older: Version): ToldApart[] {
  return measuredDifferences(logs, newer, older).flatMap(({ before, after, rows }) =>
    rows
      .filter(({ difference: { verdict } }) => verdict !== 'cannot be told apart' && verdict !== 'no data')
      .map((row) => ({ ...row, sources: [before, after] as const })),
  );
}

/** What the parts cost that a newer version has and an older one has not, by currency. */
export function costOfNewParts({ bill: newer }: Version, { bill: older }: Version): Price[] {
  const left = older.lines.map(({ part, value, quantity }) => JSON.stringify([part, value, quantity]));
  const fresh = newer.lines.filter(({ part, value, quantity }) => {
    const at = left.indexOf(JSON.stringify([part, value, quantity]));
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
  return sumOfPrices(fresh.flatMap(({ cost }) => cost ?? []));
}
