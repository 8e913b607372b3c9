/** A capture's name in its log: its id, or its file name without extension. */
export function captureName({ id, file }: { id?: string | undefined; file: string }): string {
  return id ?? (file.split('/').at(-1) ?? file).replace(/\.[^.]+$/, '');
}

/** The path a capture file is published under: its own, with .csv added where it ends otherwise. */
export function downloadOf(file: string): string {
  return file.endsWith('.csv') ? file : `${file}.csv`;
}
