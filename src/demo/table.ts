/** How a file is written around its numbers. */
export interface Layout {
  delimiter: ',' | ';' | '\t';
  decimalMark: '.' | ',';
  newline: '\n' | '\r\n';
  encoding: 'utf-8' | 'utf-16le with mark';
  /** Lines above the table, as they stand. */
  preamble: readonly string[];
  /** Header rows, one cell for each column; a unit row is a second header. */
  headers: readonly (readonly string[])[];
}

/** One column and the digits it is printed with. */
export interface Printed {
  values: ArrayLike<number>;
  digits: number;
}

/** A file: its path below the journal's folder of logs, a tracing's below the journal's folder, and its bytes. */
export interface DemoFile {
  path: string;
  bytes: Uint8Array;
}

/** Writes columns of equal length as one delimited text file. */
export function tableBytes(layout: Layout, columns: readonly Printed[]): Uint8Array {
  const rows = Array.from({ length: columns[0]?.values.length ?? 0 }, (_, i) =>
    columns.map(({ values, digits }) => printed(values[i] ?? 0, digits, layout.decimalMark)),
  );
  const table = [...layout.headers, ...rows].map((cells) => cells.join(layout.delimiter));
  const text = [...layout.preamble, ...table, ''].join(layout.newline);
  return layout.encoding === 'utf-8' ? Buffer.from(text, 'utf8') : Buffer.from(`\uFEFF${text}`, 'utf16le');
}

function printed(value: number, digits: number, decimalMark: '.' | ','): string {
  const text = value.toFixed(digits);
  const unsigned = Number(text) === 0 ? text.replace('-', '') : text;
  return decimalMark === '.' ? unsigned : unsigned.replace('.', ',');
}

/** The most common way: comma, decimal point, line feeds, UTF-8 and nothing above the table. */
export const plainLayout = {
  delimiter: ',',
  decimalMark: '.',
  newline: '\n',
  encoding: 'utf-8',
  preamble: [],
} as const;

/** `count` values from `low` to `high` in equal ratios. */
export function equalRatios(low: number, high: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => low * (high / low) ** (i / (count - 1)));
}
