/** A frequency made of two tones: `first`·f1 + `second`·f2, f1 being the lower and f2 the upper one. */
export interface Combination {
  first: number;
  second: number;
}

/** A combination with its place in a record. */
export interface PlacedCombination extends Combination {
  /** |first| + |second|: the lowest power of a transfer curve that makes the line. */
  order: number;
  /** Cycles per record. */
  cycles: number;
}

/** A combination that has no line of its own. */
export interface LostCombination extends PlacedCombination {
  /** The line of lower order that it cannot be told from; null where it lies at zero or beyond half the rate. */
  onto: Combination | null;
}

/** Highest order of the lines that are fitted. */
export const highestOrder = 5;
/** Lines nearer than this, in cycles per record, are not told apart. */
const resolution = 1;

/** "f2 − f1", "2f1 − f2", "f2 + 2f1", "3f1": the positive term first, the upper tone before the lower. */
export function combinationName({ first, second }: Combination): string {
  const terms = [
    { times: second, tone: 'f2' },
    { times: first, tone: 'f1' },
  ]
    .filter(({ times }) => times !== 0)
    .toSorted((a, b) => Math.sign(b.times) - Math.sign(a.times));
  return terms
    .map(({ times, tone }, i) => {
      const size = Math.abs(times) === 1 ? tone : `${Math.abs(times)}${tone}`;
      return i === 0 ? size : `${times < 0 ? '−' : '+'} ${size}`;
    })
    .join(' ');
}

/** True for two combinations of the same multiples. */
export const isSame = (a: Combination, b: Combination) => a.first === b.first && a.second === b.second;

/** Where two tones' combinations up to the fifth order stand in a record of `rows` samples. */
export function placeCombinations(
  [lower, upper]: readonly [number, number],
  rows: number,
): { own: PlacedCombination[]; lost: LostCombination[] } {
  const own: PlacedCombination[] = [];
  const lost: LostCombination[] = [];
  for (const placed of combinationsOf(lower, upper)) {
    const beside = own.find(({ cycles }) => Math.abs(cycles - placed.cycles) < resolution);
    const outside = placed.cycles < resolution || placed.cycles > rows / 2 - resolution;
    if (outside || beside) lost.push({ ...placed, onto: outside ? null : (beside ?? null) });
    else own.push(placed);
  }
  return { own, lost };
}

/** All combinations of positive frequency, by order, the tones themselves first. */
function combinationsOf(lower: number, upper: number): PlacedCombination[] {
  const found: PlacedCombination[] = [];
  for (let order = 1; order <= highestOrder; order++) {
    for (let second = order; second >= 0; second--) {
      const first = order - second;
      const signs = first === 0 || second === 0 ? [1] : [1, -1];
      for (const sign of signs) found.push(placed(sign * first, second, lower, upper));
    }
  }
  return found;
}

/** The combination, turned over where its frequency would be negative. */
function placed(first: number, second: number, lower: number, upper: number): PlacedCombination {
  const cycles = first * lower + second * upper;
  const sign = cycles < 0 ? -1 : 1;
  return {
    first: first === 0 ? 0 : sign * first,
    second: second === 0 ? 0 : sign * second,
    order: Math.abs(first) + Math.abs(second),
    cycles: Math.abs(cycles),
  };
}
