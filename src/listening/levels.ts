/** How levels were read: as a voltage at the speaker terminals, or as a sound level by a meter. */
export type LevelMethod = 'voltage' | 'meter';

/** A reading of one alternative: volts by voltage, decibels by meter. */
export interface LevelReading {
  of: string;
  value: number;
}

/** How far the alternatives are apart in level. */
export interface LevelMatch {
  /** The louder less the softer, in decibels; not below zero. */
  differenceDb: number;
  louder: string;
  targetDb: number;
  isWithin: boolean;
}

/**
 * The level difference of alternatives from one reading of each; null with fewer than two readings, or a voltage that is
 * not above zero. Readings come from one meter, whose gain drops out of the difference.
 */
export function levelMatch(
  method: LevelMethod,
  readings: readonly LevelReading[],
  targetDb: number,
): LevelMatch | null {
  const levels = readings
    .map(({ of, value }) => ({
      of,
      db: method === 'meter' ? value : value > 0 ? 20 * Math.log10(value) : Number.NaN,
    }))
    .sort((a, b) => b.db - a.db);
  const [loudest, softest] = [levels[0], levels.at(-1)];
  if (!loudest || !softest || levels.length < 2 || levels.some(({ db }) => !Number.isFinite(db))) return null;
  const differenceDb = loudest.db - softest.db;
  return { differenceDb, louder: loudest.of, targetDb, isWithin: differenceDb <= targetDb + 1e-9 };
}
