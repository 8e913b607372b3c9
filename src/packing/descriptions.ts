import { globSync, readFileSync } from 'node:fs';
import path from 'node:path';
import ts from 'typescript';

/** A node of a JSON Schema, as far as it is looked into. */
interface Node {
  [key: string]: unknown;
  properties?: Record<string, Node>;
}

type Comments = ReadonlyMap<string, string>;

/** Gives every property of a JSON Schema the comment that stands above its key in `src/journal/schemas`. */
export function describe<T>(schema: T): T {
  return described(schema, commentsByKeys()) as T;
}

function described(value: unknown, comments: ReadonlyMap<string, Comments>): unknown {
  if (Array.isArray(value)) return value.map((item) => described(item, comments));
  if (typeof value !== 'object' || value === null) return value;
  const node = Object.fromEntries(
    Object.entries(value).map(([key, inner]) => [key, described(inner, comments)]),
  ) as Node;
  if (!node.properties) return node;
  const known = comments.get(signature(Object.keys(node.properties)));
  const properties = Object.entries(node.properties).map(([key, inner]) => {
    const comment = known?.get(key);
    return [key, comment === undefined ? inner : { description: comment, ...inner }];
  });
  return { ...node, properties: Object.fromEntries(properties) };
}

const signature = (keys: readonly string[]) => [...keys].sort().join(' ');

/** Comments of each object in the schemas, by the keys that it has together with those spread into it. */
function commentsByKeys(): Map<string, Comments> {
  const folder = path.join(import.meta.dirname, '../journal/schemas');
  const literals = globSync('**/*.ts', { cwd: folder }).flatMap((file) =>
    literalsOf(
      ts.createSourceFile(file, readFileSync(path.join(folder, file), 'utf8'), ts.ScriptTarget.Latest, true),
    ),
  );
  const named = new Map(literals.flatMap(({ name, node }) => (name === null ? [] : [[name, node] as const])));
  const found = new Map<string, Comments>();
  for (const { node } of literals) {
    const keys = keysOf(node, named);
    const before = found.get(signature([...keys.keys()])) ?? new Map<string, string>();
    const said = [...keys].filter(([, comment]) => comment !== '');
    found.set(signature([...keys.keys()]), new Map([...said, ...before]));
  }
  return found;
}

interface Literal {
  /** Name of the constant that it is the value of. */
  name: string | null;
  node: ts.ObjectLiteralExpression;
}

function literalsOf(file: ts.SourceFile): Literal[] {
  const found: Literal[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isObjectLiteralExpression(node)) {
      const { parent } = node;
      const owner =
        ts.isVariableDeclaration(parent) && ts.isIdentifier(parent.name) ? parent.name.text : null;
      found.push({ name: owner, node });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** Keys with their comments, an empty one where there is none. */
function keysOf(
  node: ts.ObjectLiteralExpression,
  named: ReadonlyMap<string, ts.ObjectLiteralExpression>,
): Map<string, string> {
  const keys = new Map<string, string>();
  for (const property of node.properties) {
    if (ts.isSpreadAssignment(property) && ts.isIdentifier(property.expression)) {
      const spread = named.get(property.expression.text);
      for (const [key, comment] of spread ? keysOf(spread, named) : []) keys.set(key, comment);
    } else if (property.name && ts.isIdentifier(property.name)) {
      keys.set(property.name.text, commentAbove(property));
    }
  }
  return keys;
}

/** The documentation comment of a key in one line. */
function commentAbove(node: ts.Node): string {
  const [text] = ts.getJSDocCommentsAndTags(node).map(({ comment }) => ts.getTextOfJSDocComment(comment));
  return (text ?? '').replaceAll(/\s+/g, ' ').trim();
}
