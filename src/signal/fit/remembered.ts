/** A costly function of numbers that keeps its last few results; all who ask for the same are given the same object. */
export function remembered<Key extends number[], Result>(
  make: (...key: Key) => Result,
  most: number,
): (...key: Key) => Result {
  const known: { key: Key; result: Result }[] = [];
  return (...key) => {
    const found = known.find((entry) => entry.key.every((value, i) => value === key[i]));
    if (found !== undefined) return found.result;
    const result = make(...key);
    known.unshift({ key, result });
    known.length = Math.min(known.length, most);
    return result;
  };
}
