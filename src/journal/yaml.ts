import {
  type Document,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  visit,
  type YAMLError,
  type YAMLMap,
} from 'yaml';
import { type Fault, type Place, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import { type FaultAt, yamlDocument } from './yaml-document.ts';

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

/** Faults of one text that are told one by one. */
const mostFaults = 20;

/**
 * Reads YAML; `firstLine` is the line of the file on which the text begins. A number spelled in another way
 * than its value prints (`012`, `1.50`, `6E5`) stays the text it is, so that names and prices keep theirs.
 */
export function readYaml(written: string, file: string, firstLine = 1): YamlReading {
  const text = written.replaceAll(/\r\n?/g, '\n');
  const { document, faults } = yamlDocument(text);
  const at = placesIn(text, file, firstLine);
  if (document)
    faults.push(...syntaxFaults(document, text), ...doubleKeys(document), ...lostAliases(document));
  const problems = told(faults).map(({ offset, fault }) => problemAt(at(offset), fault));
  const value = document && problems.length === 0 ? plainValue(document, problems, at) : null;
  const find = finder(document);
  return {
    ...{ value, problems },
    placeOf: (path) => at(find(path).value),
    placeOfKey: (path) => at(find(path).key),
  };
}

/** Tells the place of an offset, none behind the end of what is written. */
function placesIn(text: string, file: string, firstLine: number): (offset: number) => Place {
  const starts = [0, ...Array.from(text.matchAll(/\n/g), ({ index }) => index + 1)];
  const end = text.trimEnd().length;
  return (offset) => {
    const known = Math.min(offset, end);
    const line = lineOf(starts, known);
    return { file, line: line + firstLine, column: known - (starts[line] ?? 0) + 1 };
  };
}

/** The last line that begins at or before an offset, counted from 0. */
function lineOf(starts: readonly number[], offset: number): number {
  let [low, high] = [0, starts.length];
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle;
  }
  return low;
}

/** The first faults by their place; the rest are counted. */
function told(faults: readonly FaultAt[]): FaultAt[] {
  const sorted = faults.toSorted((a, b) => a.offset - b.offset);
  const next = sorted[mostFaults];
  if (!next) return sorted;
  const more = messages.yamlMoreFaults(sorted.length - mostFaults);
  return [...sorted.slice(0, mostFaults), { offset: next.offset, fault: more }];
}

const syntaxFaults = ({ errors, warnings }: Document.Parsed, text: string): FaultAt[] =>
  [...errors, ...warnings].map((error) => ({ offset: error.pos[0], fault: syntaxFault(error, text) }));

function syntaxFault({ code, message, pos }: YAMLError, text: string): Fault {
  const [word = ''] = /^[^\s:,}\]]*/.exec(text.slice(pos[0])) ?? [];
  switch (code) {
    case 'TAB_AS_INDENT':
      return messages.yamlTab();
    case 'TAG_RESOLVE_FAILED':
      return messages.yamlTag(word);
    default:
      return messages.yamlSyntax(message);
  }
}

/** Keys that stand in their group already. */
function doubleKeys(document: Document): FaultAt[] {
  const faults: FaultAt[] = [];
  visit(document, {
    Map: (_key, { items }) => {
      const seen = new Set<unknown>();
      for (const { key } of items) {
        if (!isScalar(key)) continue;
        if (seen.has(key.value))
          faults.push({ offset: startOf(key) ?? 0, fault: messages.yamlTwice(String(key.value)) });
        seen.add(key.value);
      }
    },
  });
  return faults;
}

/** Aliases whose anchor does not stand before them, or that stand in what they name. */
function lostAliases(document: Document): FaultAt[] {
  const faults: FaultAt[] = [];
  const anchors = new Set<string>();
  visit(document, {
    Node: (_key, node) => {
      const anchor = anchorOf(node);
      if (anchor !== undefined) anchors.add(anchor);
    },
    Alias: (_key, { range, source }, above) => {
      const offset = range?.[0] ?? 0;
      if (!anchors.has(source)) faults.push({ offset, fault: messages.yamlAlias(source) });
      else if (above.some((node) => anchorOf(node) === source))
        faults.push({ offset, fault: messages.yamlAliasCircle(source) });
    },
  });
  return faults;
}

const anchorOf = (node: object) =>
  'anchor' in node && typeof node.anchor === 'string' ? node.anchor : undefined;

function plainValue(document: Document, problems: Problem[], at: (offset: number) => Place): unknown {
  keepSpelling(document);
  try {
    return document.toJS({ maxAliasCount: mostAliases });
  } catch {
    const place = at(startOf(document.contents) ?? 0);
    problems.push(problemAt(place, messages.yamlTooManyAliases(mostAliases)));
    return null;
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

/** Finds the offsets of the key and value at a path; a missing part answers with its parent's. */
function finder(document: Document | null) {
  const keys = new WeakMap<YAMLMap, Map<string, Pair>>();
  const pairsOf = (map: YAMLMap) => {
    const known = keys.get(map) ?? new Map(map.items.toReversed().map((pair) => [nameOf(pair), pair]));
    keys.set(map, known);
    return known;
  };
  const child = (node: unknown, step: PropertyKey): { key: number; node: unknown } | null => {
    if (isMap(node)) {
      const pair = pairsOf(node).get(String(step));
      return pair ? { key: startOf(pair.key) ?? 0, node: pair.value } : null;
    }
    const item = isSeq(node) ? node.items[Number(step)] : undefined;
    return item === undefined ? null : { key: startOf(item) ?? 0, node: item };
  };
  return (path: YamlPath): { key: number; value: number } => {
    let node: unknown = document?.contents;
    let found = { key: 0, value: startOf(node) ?? 0 };
    for (const step of path) {
      const next = child(node, step);
      if (!next) return found;
      found = { key: next.key, value: startOf(next.node) ?? next.key };
      node = next.node;
    }
    return found;
  };
}

const nameOf = ({ key }: Pair) => String(isScalar(key) ? key.value : key);

const startOf = (node: unknown): number | undefined => (node as Node | null)?.range?.[0];
