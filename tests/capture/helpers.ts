import { type CaptureDeclaration, type CaptureReading, readCapture } from '../../src/capture/index.ts';

/** Reads a text as a UTF-8 file named capture.csv. */
export function readText(text: string, declaration?: CaptureDeclaration): CaptureReading {
  return readCapture(new TextEncoder().encode(text), 'capture.csv', declaration);
}

/** The problems as one line each: "error 3:5 rule". */
export function problemLines({ problems }: CaptureReading): string[] {
  return problems.map(({ severity, line, column, rule }) => `${severity} ${line}:${column} ${rule}`);
}

/** The column with a name; fails the test with the problems when there is none. */
export function columnNamed(reading: CaptureReading, name: string) {
  const column = reading.capture?.columns.find((candidate) => candidate.name === name);
  if (column) return column;
  const names = reading.capture?.columns.map((candidate) => candidate.name);
  throw new Error(
    `no column ${name} among ${names?.join(', ')}; ${reading.problems.map((p) => p.message).join(' ')}`,
  );
}

/** The values of a column as a plain array. */
export const valuesOf = (reading: CaptureReading, name: string) => [...columnNamed(reading, name).values];

export type Encoding = 'utf-8' | 'utf-8 with mark' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** Encodes a text; UTF-16 gets its byte-order mark. Windows-1252 covers the Latin-1 letters. */
export function encode(text: string, encoding: Encoding): Uint8Array {
  if (encoding === 'utf-8') return new TextEncoder().encode(text);
  if (encoding === 'utf-8 with mark') return new TextEncoder().encode(`\ufeff${text}`);
  if (encoding === 'windows-1252') return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
  const bytes = new Uint8Array((text.length + 1) * 2);
  const view = new DataView(bytes.buffer);
  [...`\ufeff${text}`].forEach((letter, at) => {
    view.setUint16(at * 2, letter.charCodeAt(0), encoding === 'utf-16le');
  });
  return bytes;
}
