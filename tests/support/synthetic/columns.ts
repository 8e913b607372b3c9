/** Whole steps of a column, and how many decimals a step stands for: 12345 with 4 decimals is 1.2345. */
export interface Steps {
  values: Int32Array;
  decimals: number;
}

const [zero, minus, point, comma, newline] = [48, 45, 46, 44, 10];
/** Sign, ten digits, a point and what parts it from the next number. */
const widest = 13;

/**
 * Columns of equal length as comma-separated text below some lines. Digits are written as bytes, as a large journal
 * has a hundred million numbers.
 */
export function columnBytes(above: readonly string[], columns: readonly Steps[]): Uint8Array {
  const rows = columns[0]?.values.length ?? 0;
  const head = Buffer.from(`${above.join('\n')}\n`, 'utf8');
  const bytes = Buffer.allocUnsafe(head.length + rows * columns.length * widest);
  let end = head.copy(bytes);
  for (let row = 0; row < rows; row++) {
    for (const { values, decimals } of columns) {
      end = writeNumber(bytes, end, values[row] ?? 0, decimals);
      bytes[end++] = comma;
    }
    bytes[end - 1] = newline;
  }
  return bytes.subarray(0, end);
}

/** Writes a number from `start` on; answers with the place behind it. */
function writeNumber(bytes: Buffer, start: number, steps: number, decimals: number): number {
  let rest = Math.abs(steps);
  let length = Math.max(decimals + 1, digitsOf(rest));
  let end = start;
  if (steps < 0) bytes[end++] = minus;
  length += decimals > 0 ? 1 : 0;
  for (let place = 0; place < length; place++) {
    if (decimals > 0 && place === decimals) bytes[end + length - 1 - place] = point;
    else {
      bytes[end + length - 1 - place] = zero + (rest % 10);
      rest = Math.floor(rest / 10);
    }
  }
  return end + length;
}

function digitsOf(whole: number): number {
  let digits = 1;
  for (let bound = 10; whole >= bound; bound *= 10) digits++;
  return digits;
}
