import { largestOf } from './statistics.ts';

/** Median of the values, which are left as they stand; 0 for none. */
export function medianOf(values: Float64Array): number {
  const sorted = values.slice();
  const half = sorted.length >> 1;
  select(sorted, half);
  const upper = sorted[half] ?? 0;
  if (sorted.length % 2 === 1 || sorted.length === 0) return upper;
  return (largestOf(sorted.subarray(0, half)) + upper) / 2;
}

/**
 * Moves the value of a rank to its place, smaller ones before it and larger ones behind.
 * @source selection by partitioning about a middle value: C. A. R. Hoare, Comm. ACM 4:321 (1961), algorithm 65, FIND.
 */
function select(values: Float64Array, rank: number): void {
  let first = 0;
  let last = values.length - 1;
  while (first < last) {
    const { left, right } = partition(values, first, last, values[rank] ?? 0);
    if (right < rank) first = left;
    if (left > rank) last = right;
  }
}

/** Exchanges values until none above the middle one stands left of any below it. */
function partition(values: Float64Array, first: number, last: number, middle: number) {
  let left = first;
  let right = last;
  while (left <= right) {
    while ((values[left] ?? middle) < middle) left++;
    while ((values[right] ?? middle) > middle) right--;
    if (left > right) break;
    const value = values[left] ?? 0;
    values[left] = values[right] ?? 0;
    values[right] = value;
    left++;
    right--;
  }
  return { left, right };
}
