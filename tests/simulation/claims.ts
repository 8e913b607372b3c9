import { beforeAll, describe, expect, it } from 'vitest';
import { binomialRange } from './binomial.ts';
import { type Counts, type Kind, runs, simulate } from './records.ts';

/** Shares of records that an interval holds in: the least and the most that it is known to. */
export type Coverage = readonly [least: number, most: number];

/** Where the method is exact up to its approximations. */
export const meant: Coverage = [0.95, 0.95];

/** What holds for records with harmonics. Orders listed are tested one by one. */
export interface HarmonicClaims {
  frequency: Coverage;
  level: Coverage;
  thd: Coverage;
  /** Harmonics of more than five times their uncertainty. */
  clear: Readonly<Record<number, Coverage>>;
  /** Harmonics of less than that: the interval holds in 95 % at least. */
  faint: readonly number[];
}

/** A count that a coverage allows: chance alone passes either end once in 2000. */
function expectCount(count: number, [least, most]: Coverage): void {
  expect(count, `of ${runs}, at least`).toBeGreaterThanOrEqual(binomialRange(runs, least).least);
  expect(count, `of ${runs}, at most`).toBeLessThanOrEqual(binomialRange(runs, most).most);
}

const percent = ([least, most]: Coverage) =>
  least === most ? `${100 * least} %` : `${100 * least} to ${100 * most} %`;

/** One line of shares, in percent. */
function report(name: string, counts: Counts): void {
  const share = (count: number) => ((100 * count) / runs).toFixed(1);
  const each = [2, 3, 4, 5, 6, 7, 8, 9, 10].map((order) => share(counts.harmonic(order)));
  console.log(
    `${name}: frequency ${share(counts.frequency)}, level ${share(counts.level)}, THD ${share(counts.thd)}, orders 2 to 10 ${each.join(' ')}, falsely detected ${share(counts.falseAlarm)}`,
  );
}

/** Tests a kind of record that has harmonics. */
export function holdsOfHarmonics(name: string, kind: Kind, claims: HarmonicClaims): void {
  describe(`${name}: of 5,000 records`, () => {
    let counts: Counts;
    beforeAll(() => {
      counts = simulate(kind);
      report(name, counts);
    });

    it('all have a fundamental and ten orders', () => {
      expect(counts.complete).toBe(runs);
    });

    it(`the interval of the frequency holds in ${percent(claims.frequency)}`, () => {
      expectCount(counts.frequency, claims.frequency);
    });

    it(`the interval of the level holds in ${percent(claims.level)}`, () => {
      expectCount(counts.level, claims.level);
    });

    it(`the interval of THD holds in ${percent(claims.thd)}`, () => {
      expectCount(counts.thd, claims.thd);
    });

    it.each(Object.entries(claims.clear))(
      'the interval of clear harmonic %s holds as often as stated',
      (order, coverage) => {
        expectCount(counts.harmonic(Number(order)), coverage);
      },
    );

    it.each(claims.faint)('the interval of faint or absent harmonic %i holds in 95 % at least', (order) => {
      expectCount(counts.harmonic(order), [0.95, 1]);
    });
  });
}

/** Tests a kind of record without any counted harmonic. */
export function holdsOfNoise(name: string, kind: Kind): void {
  describe(`${name}, no harmonics: of 5,000 records`, () => {
    let counts: Counts;
    beforeAll(() => {
      counts = simulate(kind);
      report(`${name}, no harmonics`, counts);
    });

    it('noise is taken for a harmonic in 5 % at most', () => {
      expect(counts.falseAlarm).toBeLessThanOrEqual(binomialRange(runs, 0.05).most);
    });

    it('the interval of THD begins at exactly 0 in 95 % at least, and each harmonic’s holds as often', () => {
      expectCount(counts.thdFromZero, [0.95, 1]);
      expectCount(counts.thd, [0.95, 1]);
      [2, 3, 4, 5, 6, 7, 8, 9, 10].forEach((order) => {
        expectCount(counts.harmonic(order), [0.95, 1]);
      });
    });
  });
}
