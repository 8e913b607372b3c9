/** A node of a JSON Schema, as far as tables of keys look into it. */
export interface SchemaNode {
  title?: string;
  description?: string;
  type?: string | string[];
  const?: unknown;
  enum?: unknown[];
  default?: unknown;
  items?: SchemaNode;
  prefixItems?: SchemaNode[];
  anyOf?: SchemaNode[];
  oneOf?: SchemaNode[];
  properties?: Record<string, SchemaNode>;
  required?: string[];
  additionalProperties?: boolean | SchemaNode;
}

/** Keys that stand together: of the record itself, or of a group in it. */
interface KeyGroup {
  /** Where it stands: `captures[].columns`; empty for the record itself. */
  path: string;
  /** What tells it from others at the same place: `topology: push-pull`. */
  choice: string;
  node: SchemaNode;
}

/** Tables of every key of a record in Markdown, a section for each group of keys. */
export function keyTables(schema: SchemaNode): string {
  return groupsBelow({ path: '', choice: '', node: schema }).map(sectionText).join('\n\n');
}

/** A group and all that stand in it, in the order of their keys. */
function groupsBelow(group: KeyGroup): KeyGroup[] {
  const inner = Object.entries(group.node.properties ?? {}).flatMap(([key, node]) =>
    groupsOf(node, group.path === '' ? key : `${group.path}.${key}`),
  );
  const placed = inner.map((one) => ({ ...one, choice: one.choice === '' ? group.choice : one.choice }));
  return [group, ...placed.flatMap(groupsBelow)];
}

/** The groups of keys that a value may be. */
function groupsOf(node: SchemaNode, path: string): KeyGroup[] {
  if (node.items) return groupsOf(node.items, `${path}[]`);
  const choices = choicesOf(node);
  if (choices.length > 0) {
    const groups = choices.flatMap((choice) => groupsOf(choice, path));
    return groups.map((group) =>
      groups.length > 1 ? { ...group, choice: discriminator(group.node) } : group,
    );
  }
  if (typeof node.additionalProperties === 'object')
    return groupsOf(node.additionalProperties, `${path}.<name>`);
  return node.properties ? [{ path, choice: '', node }] : [];
}

const choicesOf = ({ anyOf, oneOf }: SchemaNode) => anyOf ?? oneOf ?? [];

/** The key whose value says which of several groups this is. */
function discriminator({ properties = {}, required = [] }: SchemaNode): string {
  const [found] = Object.entries(properties).flatMap(([key, { const: one, enum: some = [] }]) => {
    const values = one === undefined ? some : [one];
    return required.includes(key) && values.length > 0 ? [`${key}: ${values.join(' or ')}`] : [];
  });
  return found ?? required[0] ?? '';
}

function sectionText({ path, choice, node }: KeyGroup): string {
  const where = [path && `\`${path}\``, choice && `with \`${choice}\``].filter(Boolean).join(' ');
  const heading = path === '' ? [] : [`## ${where}`, ''];
  const rows = Object.entries(node.properties ?? {}).map(([key, inner]) =>
    rowText([`\`${key}\``, taken(inner), needed(key, inner, node), ...told(inner.description ?? '')]),
  );
  const head = ['| Key | Takes | Needed | Meaning | Example |', '| --- | --- | --- | --- | --- |'];
  return [...heading, ...head, ...rows].join('\n');
}

const rowText = (cells: readonly string[]) =>
  `| ${cells.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;

function needed(key: string, node: SchemaNode, { required = [] }: SchemaNode): string {
  const standing = ['string', 'boolean'].includes(typeof node.default)
    ? ` (\`${String(node.default)}\`)`
    : '';
  return required.includes(key) ? 'yes' : `no${standing}`;
}

/** What may be written as a value. */
function taken(node: SchemaNode): string {
  if (node.title !== undefined) return node.title;
  if (node.const !== undefined) return code(node.const);
  if (node.enum) return node.enum.map(code).join(' or ');
  if (node.prefixItems) return `list of ${node.prefixItems.map(taken).join(', ')}`;
  if (node.items) return `list of ${plural(taken(node.items))}`;
  const choices = choicesOf(node);
  if (choices.length > 0) return [...new Set(choices.map(taken))].join(' or ');
  if (typeof node.additionalProperties === 'object')
    return `group of names, each with ${taken(node.additionalProperties)}`;
  if (node.properties) return 'group';
  return node.type === 'boolean' ? '`true` or `false`' : 'text';
}

const plural = (kind: string) => (/^(text|group|short name)$/.test(kind) ? `${kind}s` : kind);
const blanks: Readonly<Record<string, string>> = { ' ': 'a space', '\t': 'a tab' };
const code = (value: unknown) => blanks[String(value)] ?? `\`${String(value)}\``;

/** Meaning and example of a description, in which an example stands as code behind a colon, or alone. */
function told(description: string): [meaning: string, example: string] {
  if (/^(?:`[^`]+`(?:, | or |\.$)){2,}$/.test(description)) return ['', ''];
  const found = /^(?:([^`]*): )?(`[^`]+`)(.*)$/.exec(description);
  if (!found) return [description, ''];
  const [, before = '', first = '', rest = ''] = found;
  if (before === '' && rest !== '.') return [description, ''];
  if (rest === ' (default).') return [`${before}; left out, ${first}.`, ''];
  if (rest.includes('`')) return [`${before}.`, `${first}${rest}`.replace(/\.$/, '')];
  return [before === '' ? '' : `${before}${rest}`, first];
}
