/** The path a capture file is published under: its own, with .csv added where it ends otherwise. */
export function publishedName(file: string): string {
  return /\.csv$/.test(file) ? file : `${file}.csv`;
}
