/** One line of a text, without its line end. */
export interface Line {
  /** Counted from 1. */
  number: number;
  /** Offset of its first character in the text. */
  start: number;
  text: string;
}

const lineEnds = () => /\r\n|\n|\r/g;

/** Yields the lines from an offset on; LF, CRLF and CR end a line. Nothing follows a final line end. */
export function* linesFrom(text: string, start = 0, number = 1): Generator<Line> {
  const ends = lineEnds();
  let at = start;
  for (let count = number; at < text.length; count++) {
    ends.lastIndex = at;
    const end = ends.exec(text);
    yield { number: count, start: at, text: text.slice(at, end?.index ?? text.length) };
    at = end ? ends.lastIndex : text.length;
  }
}

/** The line with a number counted from 1, or an empty one past the end. */
export function lineNumbered(text: string, wanted: number): Line {
  for (const line of linesFrom(text)) {
    if (line.number === wanted) return line;
  }
  return { number: wanted, start: text.length, text: '' };
}

/** The first `most` lines. */
export function firstLines(text: string, most: number): Line[] {
  const lines: Line[] = [];
  for (const line of linesFrom(text)) {
    if (lines.length === most) break;
    lines.push(line);
  }
  return lines;
}

/** Up to `most` whole lines spread evenly from an offset to the end, in order, as texts. */
export function spreadLines(text: string, from: number, most: number): string[] {
  const ends = lineEnds();
  const found = new Map<number, string>();
  for (let k = 0; k < most; k++) {
    ends.lastIndex = from + Math.floor(((text.length - from) * k) / most);
    const start = ends.exec(text) ? ends.lastIndex : text.length;
    if (start < text.length && !found.has(start)) found.set(start, lineAt(text, start));
  }
  return [...found.values()];
}

function lineAt(text: string, start: number): string {
  const ends = lineEnds();
  ends.lastIndex = start;
  return text.slice(start, ends.exec(text)?.index ?? text.length);
}
