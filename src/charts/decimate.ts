/**
 * Picks the readings that a drawing needs: the lowest and the highest of each run of neighbours that fall in
 * one column of pixels, and both ends. Peaks survive, unlike with sampling.
 * @param values one per reading
 * @param column the column of pixels a reading falls in
 * @returns ascending indices of the readings kept
 */
export function decimate(values: ArrayLike<number>, column: (index: number) => number): number[] {
  const kept: number[] = [];
  for (let start = 0; start < values.length; ) {
    const end = endOfColumn(values.length, start, column);
    kept.push(...extremes(values, start, end));
    start = end;
  }
  return withEnds(kept, values.length);
}

function endOfColumn(length: number, start: number, column: (index: number) => number): number {
  const first = column(start);
  let end = start + 1;
  while (end < length && column(end) === first) end++;
  return end;
}

function extremes(values: ArrayLike<number>, start: number, end: number): number[] {
  let low = start;
  let high = start;
  for (let i = start + 1; i < end; i++) {
    const value = values[i] ?? 0;
    if (value < (values[low] ?? 0)) low = i;
    if (value > (values[high] ?? 0)) high = i;
  }
  if (low === high) return [low];
  return low < high ? [low, high] : [high, low];
}

function withEnds(kept: number[], length: number): number[] {
  const last = length - 1;
  if (last < 0) return [];
  const open = kept[0] === 0 ? kept : [0, ...kept];
  return open.at(-1) === last ? open : [...open, last];
}
