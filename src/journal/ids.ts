/** A capture's name in its log: its id, or its file name without extension. */
export function captureName({ id, file }: { id?: string | undefined; file: string }): string {
  return id ?? (file.split('/').at(-1) ?? file).replace(/\.[^.]+$/, '');
}
