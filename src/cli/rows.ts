/** Sets rows of cells in aligned columns, indented under their heading. */
export function alignRows(rows: readonly (readonly string[])[], indent = 4): string[] {
  const widths: number[] = [];
  for (const row of rows) {
    row.forEach((cell, column) => {
      widths[column] = Math.max(widths[column] ?? 0, cell.length);
    });
  }
  return rows.map((row) =>
    `${' '.repeat(indent)}${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join('  ')}`.trimEnd(),
  );
}
