/** A reading of a ratio at an output power. */
interface PowerRatio {
  powerW: number;
  ratio: number;
}

/** How much of the square of THD is in none of the harmonics that were read, at one output power. */
export interface RestShare {
  powerW: number;
  share: number;
}

/** What total distortion consists of over the levels of a sweep. */
export interface DistortionMakeUp {
  /** Orders that were read one by one. */
  orders: number[];
  /** Output power over which they make up THD, all but a twentieth of its square; null where there is no such range. */
  rangeW: [number, number] | null;
  /** The rest at the lowest and at the highest power, where it is more than that. */
  below: RestShare | null;
  above: RestShare | null;
}

const small = 0.05;
const fewest = 3;

/**
 * Compares total harmonic distortion with the root sum of squares of the harmonics beside it: where they agree it is of
 * these orders, and where they part, of others or of noise. Null without both columns in three rows at least.
 * @source THD² = Σ h_n², the definition.
 */
export function distortionMakeUp(
  thd: readonly PowerRatio[],
  harmonics: readonly { order: number; points: readonly PowerRatio[] }[],
): DistortionMakeUp | null {
  const read = harmonics
    .filter(({ points }) => points.length > 0)
    .map(({ order, points }) => ({ order, at: new Map(points.map((point) => [point.powerW, point.ratio])) }));
  const rows = thd
    .filter(({ ratio }) => ratio > 0)
    .flatMap(({ powerW, ratio }) => {
      const single = read.map(({ at }) => at.get(powerW));
      if (single.some((one) => one === undefined)) return [];
      const sum = single.reduce<number>((total, one = 0) => total + one * one, 0);
      return [{ powerW, share: Math.max(0, 1 - sum / ratio ** 2) }];
    });
  if (read.length === 0 || rows.length < fewest) return null;
  const run = longestRun(rows.map(({ share }) => share <= small));
  const [first, last] = [rows[0] ?? null, rows.at(-1) ?? null];
  const [from, to] = [rows[run.start], rows[run.start + run.length - 1]];
  return {
    orders: read.map(({ order }) => order),
    rangeW: run.length >= fewest && from && to ? [from.powerW, to.powerW] : null,
    below: first && first.share > small ? first : null,
    above: last && last.share > small ? last : null,
  };
}

/** The longest run of what holds, the first of several. */
function longestRun(holds: readonly boolean[]): { start: number; length: number } {
  let best = { start: 0, length: 0 };
  let start = 0;
  holds.forEach((one, i) => {
    if (!one) start = i + 1;
    else if (i + 1 - start > best.length) best = { start, length: i + 1 - start };
  });
  return best;
}
