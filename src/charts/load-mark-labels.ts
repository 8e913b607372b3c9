import { textWidth, wrapText } from './text-width.ts';
import { fontSize } from './theme.ts';

const separator = ' · ';

/**
 * Names of marks that share a label, as many on a line as `room` holds; a name that is wider is broken at its spaces,
 * and only a word that is wider than the room takes more, up to `most`.
 */
export function labelLines(
  names: readonly string[],
  { room, most }: { room: number; most: number },
): string[] {
  const words = names.flatMap((name) => name.split(' ')).map((word) => textWidth(word, fontSize));
  const limit = Math.min(most, Math.max(room, ...words));
  const lines: string[] = [];
  for (const name of new Set(names)) {
    const joined = `${lines.at(-1) ?? ''}${separator}${name}`;
    if (lines.length > 0 && textWidth(joined, fontSize) <= limit) lines[lines.length - 1] = joined;
    else lines.push(...wrapText(name, fontSize, limit));
  }
  return lines;
}
