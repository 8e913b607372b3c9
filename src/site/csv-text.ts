/** One cell: a text, a number in full precision, or nothing. */
export type Cell = string | number | null;

/**
 * A table as comma-separated values with its header first. Numbers are written so that they read back as they are; a text
 * that a spreadsheet would take for a formula gets an apostrophe before it.
 * @source RFC 4180 (2005), section 2
 */
export function csvText(header: readonly string[], rows: readonly (readonly Cell[])[]): string {
  return [header, ...rows].map((row) => `${row.map(cellText).join(',')}\r\n`).join('');
}

function cellText(cell: Cell): string {
  const text = typeof cell === 'string' ? inert(cell) : String(cell ?? '');
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** Signs that begin a formula, also in their full width and behind spaces; or a cell that begins with white space. */
const formula = /^(?:[\t\r\n]|\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20])/u;
const plainNumber = /^[+-]?\d+(?:\.\d+)?(?:e[+-]?\d+)?$/i;

const inert = (text: string) => (formula.test(text) && !plainNumber.test(text) ? `'${text}` : text);
