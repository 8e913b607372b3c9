import { maxBytes } from './limits.ts';
import * as say from './messages.ts';
import { type Report, topOfFile } from './report.ts';
import type { CaptureDeclaration } from './types.ts';

export type Encoding = NonNullable<CaptureDeclaration['encoding']>;

export interface DecodedText {
  text: string;
  encoding: Encoding;
}

/**
 * Turns bytes into text: UTF-8 with or without byte-order mark, UTF-16 with one, otherwise Windows-1252.
 * Empty files, files over the size limit, binary content and bytes that do not fit the encoding are errors.
 */
export function decodeText(
  bytes: Uint8Array,
  declared: Encoding | undefined,
  report: Report,
): DecodedText | null {
  if (bytes.length === 0) return report.at(topOfFile, say.emptyFile());
  if (bytes.length > maxBytes) return report.at(topOfFile, say.tooLarge(bytes.length, maxBytes));
  const known = declared ?? markedEncoding(bytes);
  const { encoding, text } = known ? decodedAs(known, bytes) : guessed(bytes);
  if (text === null) return report.at(topOfFile, say.undecodable(encoding));
  if (looksBinary(text)) return report.at(topOfFile, say.binary());
  if (text.trim() === '') return report.at(topOfFile, say.emptyFile());
  return { text, encoding };
}

function markedEncoding(bytes: Uint8Array): Encoding | null {
  const [first, second, third] = bytes;
  if (first === 0xef && second === 0xbb && third === 0xbf) return 'utf-8';
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  return null;
}

/** UTF-8 where the bytes are that, and Windows-1252 otherwise. */
function guessed(bytes: Uint8Array) {
  const unicode = decodedAs('utf-8', bytes);
  return unicode.text === null ? decodedAs('windows-1252', bytes) : unicode;
}

const decodedAs = (encoding: Encoding, bytes: Uint8Array) => ({ encoding, text: tryDecode(bytes, encoding) });

function tryDecode(bytes: Uint8Array, encoding: Encoding): string | null {
  try {
    return new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Looks where the preamble would be for control characters that no text file holds. */
function looksBinary(text: string): boolean {
  const most = Math.min(text.length, 4096);
  for (let i = 0; i < most; i++) {
    const code = text.charCodeAt(i);
    if (code < 9 || (code > 13 && code < 32 && code !== 27)) return true;
  }
  return false;
}
