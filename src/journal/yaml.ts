import { type Document, isMap, isScalar, isSeq, type Node, parseDocument } from 'yaml';
import { type Place, type Problem, problemAt } from '../problem/index.ts';
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
 * Reads YAML. `firstColumn` is the offset of the text's first line in its file, as frontmatter begins
 * behind its fence; later lines start at column 1.
 */
export function readYaml(text: string, file: string, firstColumn = 1): YamlReading {
  const document = parseDocument(text, { prettyErrors: false, version: '1.2', strict: true });
  const at = (offset: number): Place => {
    const before = text.slice(0, offset).split('\n');
    const column = (before.at(-1) ?? '').length + 1;
    return { file, line: before.length, column: before.length === 1 ? column + firstColumn - 1 : column };
  };
  const problems = [...document.errors, ...document.warnings].map((error) =>
    problemAt(at(error.pos[0]), messages.yamlSyntax(error.message)),
  );
  return {
    ...plainValue(document, problems, at),
    placeOf: (path) => at(find(document, path).value),
    placeOfKey: (path) => at(find(document, path).key),
  };
}

function plainValue(document: Document, problems: Problem[], at: (offset: number) => Place) {
  if (problems.some((problem) => problem.severity === 'error')) return { value: null, problems };
  try {
    return { value: document.toJS({ maxAliasCount: mostAliases }) as unknown, problems };
  } catch (error) {
    const fault = messages.yamlSyntax(error instanceof Error ? error.message : String(error));
    return { value: null, problems: [...problems, problemAt(at(0), fault)] };
  }
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
