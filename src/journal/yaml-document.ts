import { Composer, type CST, type Document, Lexer, type ParsedNode, Parser } from 'yaml';
import type { Fault } from '../problem/index.ts';
import { messages } from './messages.ts';

/** Groups and lists in one another: far more than a record has, far fewer than exhaust the reader. */
const mostNested = 64;

/** Keys and values of one text. */
const mostValues = 20_000;

/** A fault at an offset of a text. */
export interface FaultAt {
  offset: number;
  fault: Fault;
}

type Yaml = Document.Parsed<ParsedNode, true>;

/**
 * Reads a YAML text as one document. The document is null where the text is over a limit, which is found while it is
 * parted into words, before anything is built of them.
 */
export function yamlDocument(text: string): { document: Yaml | null; faults: FaultAt[] } {
  const read = tokensOf(text);
  if ('fault' in read) return { document: null, faults: [read] };
  const composer = new Composer({ version: '1.2', strict: true, uniqueKeys: false, logLevel: 'error' });
  const [document, second] = composer.compose(read.tokens, true, text.length);
  const faults = second ? [{ offset: second.range[0], fault: messages.yamlDocuments() }] : [];
  return { document: document ?? null, faults };
}

/** The tokens of a text; or the first of the limits that it is over, with its place. */
function tokensOf(text: string): { tokens: CST.Token[] } | FaultAt {
  const parser = new Parser();
  const tokens: CST.Token[] = [];
  let values = 0;
  for (const word of new Lexer().lex(text)) {
    const offset = parser.offset;
    if (beginsValue(word)) values++;
    for (const token of parser.next(word)) tokens.push(token);
    if (parser.stack.length > mostNested + 2) return { offset, fault: messages.yamlTooDeep(mostNested) };
    if (values > mostValues) return { offset, fault: messages.yamlTooLong(mostValues) };
  }
  for (const token of parser.end()) tokens.push(token);
  return { tokens };
}

/** The lexer announces a plain text or a block of lines by a sign of its own; a quoted one begins with its quote. */
const beginsValue = (word: string) => word === '\u001f' || word.startsWith('"') || word.startsWith("'");
