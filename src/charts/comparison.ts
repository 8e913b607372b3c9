import { crossings, type Drawn, valueAt } from './crossings.ts';
import { extent, type Run } from './readings.ts';

/** Where one line lies below another over what both cover. */
interface Comparison {
  from: number;
  to: number;
  /** True when the first line is the lower one at the low end; null when the lines do not differ. */
  firstIsLower: boolean | null;
  /** Places where the lines change places, ascending. */
  changes: number[];
}

const logarithmic: Drawn = { logX: true, logY: true };

/**
 * Compares two lines on logarithmic axes where both have readings, each running straight between its own;
 * null when they share no stretch.
 */
export function compareLines(one: Run, other: Run): Comparison | null {
  const places = [...new Set([...one.x, ...other.x])].toSorted((a, b) => a - b);
  const shared = places.flatMap((place) => differenceAt(one, other, place));
  const range = extent(shared.map(({ x }) => x));
  if (range === null || range[0] === range[1]) return null;
  const unequal = shared.filter(({ y }) => y !== 0);
  const difference: Run = { x: unequal.map(({ x }) => x), y: unequal.map(({ y }) => y) };
  const [start] = difference.y;
  return {
    from: range[0],
    to: range[1],
    firstIsLower: start === undefined ? null : start < 0,
    changes: crossings(difference, 0, { logX: true, logY: false }).map(({ x }) => x),
  };
}

function differenceAt(one: Run, other: Run, place: number): { x: number; y: number }[] {
  const [a, b] = [valueAt(one, place, logarithmic), valueAt(other, place, logarithmic)];
  return a === null || b === null ? [] : [{ x: place, y: Math.log(a / b) }];
}

/** A comparison of two named lines as a sentence; `print` prints a place. */
export function comparisonTitle(
  [one, other]: readonly [string, string],
  { from, to, firstIsLower, changes }: Comparison,
  print: (place: number) => string,
): string {
  if (firstIsLower === null) return `${one} and ${other} do not differ`;
  const [lower, higher] = firstIsLower ? [one, other] : [other, one];
  const [change] = changes;
  if (change === undefined) return `${lower} stays below ${higher} from ${print(from)} to ${print(to)}`;
  const [, next, third] = changes;
  if (next === undefined) return `${lower} is below ${higher} up to ${print(change)} and above it beyond`;
  if (third === undefined)
    return `${higher} is below ${lower} from ${print(change)} to ${print(next)} and above it elsewhere`;
  return `${one} and ${other} change places ${changes.length} times, first at ${print(change)}`;
}
