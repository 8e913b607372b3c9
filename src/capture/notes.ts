import { type Delimiter, splitCells } from './cells.ts';
import { type Layout, patternOf } from './layout.ts';
import type { Line } from './lines.ts';
import type { TableReading } from './types.ts';

export type Note = TableReading['notes'][number];

/** The line with the sign of a comment blanked out, or null when it is none. */
export function uncommented(line: string, delimiter: Delimiter): string | null {
  const sign = /^\s*(?:#+|%+|!+|\/\/+|\*+|--+|;+)(?!\d)/.exec(line)?.[0];
  if (sign === undefined || line.trimStart().startsWith(delimiter)) return null;
  const rest = line.slice(sign.length);
  return rest.trimStart().startsWith(delimiter) && delimiter !== ' ' ? null : ' '.repeat(sign.length) + rest;
}

/** Reads a preamble line as key and value: `key: value`, `key = value`, `key,value,unit` or `key 12 kHz`. */
export function noteOf(line: Line, layout: Layout): Note | null {
  const text = uncommented(line.text, layout.delimiter) ?? line.text;
  const pair = signedPair(text) ?? cellPair(text, layout) ?? numberBehindWords(text);
  return pair && { ...pair, line: line.number };
}

type Pair = Pick<Note, 'key' | 'value'>;

const pairOf = (key = '', value = ''): Pair | null =>
  key.trim() === '' || value.trim() === '' ? null : { key: key.trim(), value: value.trim() };

function signedPair(text: string): Pair | null {
  const match = /^([^:=,;\t"]{1,80}?)\s*[:=][\s,;]*(.*)$/.exec(text);
  return match && pairOf(match[1], match[2]?.replace(/[\s,;]+$/, ''));
}

function cellPair(text: string, layout: Layout): Pair | null {
  if (layout.delimiter === ' ') return null;
  const cells = splitCells(text, layout.delimiter);
  if (patternOf(cells, layout.decimalMark).startsWith('n')) return null;
  const [key, ...values] = cells.map((cell) => cell.text);
  return pairOf(key?.replace(/[\s:=]+$/, ''), values.filter((value) => value !== '').join(' '));
}

function numberBehindWords(text: string): Pair | null {
  const match = /^(\p{L}[^\d]*?)[\s,;:=]+([+-]?[\d.].*)$/u.exec(text.trim());
  return match && pairOf(match[1], match[2]);
}
