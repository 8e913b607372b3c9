import {
  type Alias,
  type Document,
  isMap,
  isScalar,
  isSeq,
  type Node,
  parseDocument,
  visit,
  type YAMLError,
} from 'yaml';
import { type Fault, type Place, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';

/** Path of keys and indexes into a YAML document. */
export type YamlPath = readonly PropertyKey[];

/** A YAML text read as YAML 1.2: its plain value, every problem, and where each key stands. */
export interface YamlReading {
  value: unknown;
  problems: Problem[];
  /** Place of the value at a path, or of the nearest part of the path that exists. */
  placeOf(path: YamlPath): Place;
  /** Place of the key itself. */
  placeOfKey(path: YamlPath): Place;
}

/** Aliases that may be expanded in one document: enough for repeated parts, too few for a bomb. */
const mostAliases = 100;

/**
 * Reads YAML; `firstLine` is the line of the file on which the text begins. A number spelled in another way
 * than its value prints (`012`, `1.50`, `6E5`) stays the text it is, so that names and prices keep theirs.
 */
export function readYaml(text: string, file: string, firstLine = 1): YamlReading {
  const document = parseDocument(text, { prettyErrors: false, version: '1.2', strict: true });
  const end = text.trimEnd().length;
  const at = (offset: number): Place => {
    const before = text.slice(0, Math.min(offset, end)).split('\n');
    return { file, line: before.length - 1 + firstLine, column: (before.at(-1) ?? '').length + 1 };
  };
  const problems = [
    ...[...document.errors, ...document.warnings].map((error) =>
      problemAt(at(error.pos[0]), syntaxFault(error, text)),
    ),
    ...lostAliases(document).map((alias) =>
      problemAt(at(startOf(alias) ?? 0), messages.yamlAlias(alias.source)),
    ),
  ];
  return {
    ...plainValue(document, problems, at),
    placeOf: (path) => at(find(document, path).value),
    placeOfKey: (path) => at(find(document, path).key),
  };
}

function syntaxFault({ code, message, pos }: YAMLError, text: string): Fault {
  const [word = ''] = /^[^\s:,}\]]*/.exec(text.slice(pos[0])) ?? [];
  switch (code) {
    case 'DUPLICATE_KEY':
      return messages.yamlTwice(word);
    case 'TAB_AS_INDENT':
      return messages.yamlTab();
    case 'TAG_RESOLVE_FAILED':
      return messages.yamlTag(word);
    case 'MULTIPLE_DOCS':
      return messages.yamlDocuments();
    default:
      return messages.yamlSyntax(message);
  }
}

/** Aliases whose anchor does not stand before them. */
function lostAliases(document: Document): Alias[] {
  const lost: Alias[] = [];
  visit(document, {
    Alias: (_key, node) => {
      if (!node.resolve(document)) lost.push(node);
    },
  });
  return lost;
}

function plainValue(document: Document, problems: Problem[], at: (offset: number) => Place) {
  if (problems.length > 0) return { value: null, problems };
  keepSpelling(document);
  try {
    return { value: document.toJS({ maxAliasCount: mostAliases }) as unknown, problems };
  } catch {
    const place = at(startOf(document.contents) ?? 0);
    return { value: null, problems: [problemAt(place, messages.yamlTooManyAliases(mostAliases))] };
  }
}

/** Gives every number that would print differently its own text back. */
function keepSpelling(document: Document): void {
  visit(document, {
    Scalar: (_key, node) => {
      if (typeof node.value === 'number' && node.source !== undefined && String(node.value) !== node.source) {
        node.value = node.source;
      }
    },
  });
}

/** Offsets of the key and value at a path; a missing part answers with its parent's. */
function find(document: Document, path: YamlPath): { key: number; value: number } {
  let node: unknown = document.contents;
  let found = { key: 0, value: startOf(node) ?? 0 };
  for (const step of path) {
    const next = child(node, step);
    if (!next) return found;
    found = { key: next.key, value: startOf(next.node) ?? next.key };
    node = next.node;
  }
  return found;
}

function child(node: unknown, step: PropertyKey): { key: number; node: unknown } | null {
  if (isMap(node)) {
    const pair = node.items.find(({ key }) => String(isScalar(key) ? key.value : key) === String(step));
    return pair ? { key: startOf(pair.key) ?? 0, node: pair.value } : null;
  }
  if (isSeq(node)) {
    const item = node.items[Number(step)];
    return item === undefined ? null : { key: startOf(item) ?? 0, node: item };
  }
  return null;
}

const startOf = (node: unknown): number | undefined => (node as Node | null)?.range?.[0];
