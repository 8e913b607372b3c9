/** One cell: a text, a number in full precision, or nothing. */
export type Cell = string | number | null;

/**
 * A table as comma-separated values with its header first. Numbers are written so that they read back as they are.
 * @source RFC 4180 (2005), section 2
 */
export function csvText(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [header, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

function cellText(cell: Cell): string {
  const text = cell === null ? '' : String(cell);
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
