/** Words longer than this are no misspelt names, and comparing two of them would take long. */
const longestWord = 200;

/** The names closest to a misspelt one, best first; none when nothing is near enough to be meant. */
export function nearestNames(word: string, names: Iterable<string>, most = 3): string[] {
  if (word.length > longestWord) return [];
  const limit = Math.max(1, Math.floor(word.length / 3));
  return [...names]
    .filter((name) => Math.abs(name.length - word.length) <= limit)
    .map((name) => ({ name, distance: editDistance(word.toLowerCase(), name.toLowerCase()) }))
    .filter(({ distance }) => distance <= limit)
    .sort((a, b) => a.distance - b.distance || (a.name < b.name ? -1 : 1))
    .slice(0, most)
    .map(({ name }) => name);
}

/** Edits that turn one word into the other, a swap of neighbours counting as one. Counted row by row. */
function editDistance(a: string, b: string): number {
  let before: number[] = [];
  let row = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const next = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (row[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
      const swapped = a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
      const swap = swapped ? (before[j - 2] ?? 0) + 1 : Number.POSITIVE_INFINITY;
      next.push(Math.min(change, swap, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    [before, row] = [row, next];
  }
  return row[b.length] ?? 0;
}
