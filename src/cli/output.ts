/** Where a command writes: results to standard output, progress and problems to standard error. */
export interface Output {
  result(text: string): void;
  notice(text: string): void;
  /** Shows how far work is on a line that the next text replaces; null where lines cannot be replaced. */
  status?: ((text: string) => void) | null;
}

/**
 * Writes to the process's own streams, one line at a time. What was read from files cannot move the cursor, colour the
 * terminal or turn the direction of writing round: such characters are written out as JSON would.
 */
export const processOutput: Output = {
  result: (text) => process.stdout.write(`${withoutControls(text)}\n`),
  notice: (text) => process.stderr.write(`${withoutControls(text, isColour)}\n`),
  status: process.stderr.isTTY ? (text) => process.stderr.write(`\r\u001b[K${withoutControls(text)}`) : null,
};

/** Control characters but for line feed and tab, and those that turn the direction of writing round. */
const controls = /(?![\n\t])\p{Cc}|[\u061C\u200E\u200F\u202A-\u202E\u2066-\u2069]/gu;

/** A text with its control characters written out, but for those that `isKept` takes with what follows them. */
export function withoutControls(text: string, isKept?: (found: string, behind: string) => boolean): string {
  return text.replaceAll(controls, (found, offset: number) =>
    isKept?.(found, text.slice(offset + 1, offset + 5)) ? found : escaped(found),
  );
}

/** Begin and end of the bold, red and yellow that problems are printed in. */
const isColour = (found: string, behind: string) =>
  found === String.fromCharCode(27) && /^\[(?:1|22|31|33|39)m/.test(behind);

const escaped = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
