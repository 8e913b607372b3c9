/**
 * Solution of a square system by elimination with the largest pivot of the column; null where it has none.
 * `rows` hold the coefficients and, last, the right-hand side; they are used up.
 * @source Gaussian elimination with partial pivoting
 */
export function solveLinear(rows: number[][]): number[] | null {
  const size = rows.length;
  for (let column = 0; column < size; column++) {
    if (!pivot(rows, column)) return null;
    eliminateBelow(rows, column);
  }
  const found = new Array<number>(size).fill(0);
  for (let row = size - 1; row >= 0; row--) {
    const coefficients = rows[row] ?? [];
    let rest = coefficients[size] ?? 0;
    for (let k = row + 1; k < size; k++) rest -= (coefficients[k] ?? 0) * (found[k] ?? 0);
    found[row] = rest / (coefficients[row] ?? 0);
  }
  return found.every(Number.isFinite) ? found : null;
}

function pivot(rows: number[][], column: number): boolean {
  const sizeOf = (row: number) => Math.abs(rows[row]?.[column] ?? 0);
  let best = column;
  for (let row = column + 1; row < rows.length; row++) if (sizeOf(row) > sizeOf(best)) best = row;
  const [here, there] = [rows[column], rows[best]];
  if (!here || !there || !(sizeOf(best) > 0)) return false;
  rows[column] = there;
  rows[best] = here;
  return true;
}

function eliminateBelow(rows: number[][], column: number): void {
  const from = rows[column] ?? [];
  for (let row = column + 1; row < rows.length; row++) {
    const to = rows[row] ?? [];
    const factor = (to[column] ?? 0) / (from[column] ?? 1);
    if (factor === 0) continue;
    for (let k = column; k < from.length; k++) to[k] = (to[k] ?? 0) - factor * (from[k] ?? 0);
  }
}
