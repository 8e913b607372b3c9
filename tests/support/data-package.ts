interface Resource {
  name: string;
  path: string;
  bytes?: number;
  hash?: string;
  schema?: { fields: { name: string; type: string; constraints?: { required?: boolean } }[] };
}

export interface DataPackage {
  description: string;
  resources: Resource[];
}

type Json = Readonly<Record<string, unknown>>;

const fieldTypes = 'string number integer boolean date time datetime year any'.split(' ');
const isText = (value: unknown): value is string => typeof value === 'string' && value !== '';
const isObject = (value: unknown): value is Json =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

/** A relative POSIX path that does not lead upward, or a full address. */
const isPath = (value: unknown) =>
  isText(value) &&
  (/^https?:\/\/[^/]/.test(value) || (!/^[/~.]/.test(value) && !value.split('/').includes('..')));

/**
 * What keeps a document from being a Data Package; none where it is one.
 * @source Data Package standard, version 2.0 (2024): Data Package (resources, name, created, licenses, contributors),
 * Data Resource (name, path, type, bytes, hash), Table Schema (fields, name, type), Glossary (URL or Path)
 */
export function packageFaults(document: unknown): string[] {
  if (!isObject(document)) return ['it is no object'];
  const { resources, created, licenses, contributors, keywords, image, name } = document;
  const names = listOf(resources).map((resource) => (isObject(resource) ? resource['name'] : null));
  return [
    ...(listOf(resources).length > 0 ? [] : ['resources: at least one is required']),
    ...(new Set(names).size === names.length ? [] : ['resources: two have one name']),
    ...listOf(resources).flatMap((resource, index) =>
      resourceFaults(resource).map((fault) => `resources[${index}]: ${fault}`),
    ),
    ...(isText(name) && /^[a-z0-9._-]+$/.test(name) ? [] : ['name: small letters, digits, ., - and _']),
    ...(created === undefined ||
    /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)$/.test(String(created))
      ? []
      : ['created: no RFC 3339 datetime']),
    ...(licenses === undefined || Array.isArray(licenses) ? [] : ['licenses: no list']),
    ...listOf(licenses)
      .filter((one) => !isObject(one) || !(isText(one['name']) || isPath(one['path'])))
      .map(() => 'licenses: name or path'),
    ...listOf(contributors)
      .filter((one) => !isObject(one) || Object.keys(one).length === 0)
      .map(() => 'contributors: empty'),
    ...(keywords === undefined || listOf(keywords).some(isText) ? [] : ['keywords: no texts']),
    ...(image === undefined || isPath(image) ? [] : ['image: no path']),
  ];
}

function resourceFaults(resource: unknown): string[] {
  if (!isObject(resource)) return ['no object'];
  const { name, path, data, type, bytes, hash, schema } = resource;
  return [
    ...(isText(name) && /^[a-z0-9._-]+$/.test(name) ? [] : ['name: small letters, digits, ., - and _']),
    ...((path === undefined) === (data === undefined) ? ['exactly one of path and data'] : []),
    ...(path === undefined || isPath(path) ? [] : ['path: neither relative nor a full address']),
    ...(type === undefined || type === 'table' ? [] : ['type: unknown']),
    ...(bytes === undefined || Number.isInteger(bytes) ? [] : ['bytes: no whole number']),
    ...(hash === undefined || /^([^:]+:[a-fA-F0-9]+|[a-fA-F0-9]{32})$/.test(String(hash))
      ? []
      : ['hash: form']),
    ...(schema === undefined ? [] : schemaFaults(schema)),
  ];
}

function schemaFaults(schema: unknown): string[] {
  const fields = isObject(schema) ? listOf(schema['fields']) : [];
  const names = fields.map((field) => (isObject(field) ? field['name'] : null));
  return [
    ...(fields.length > 0 ? [] : ['schema: no fields']),
    ...(names.every(isText) && new Set(names).size === names.length ? [] : ['schema: names of fields']),
    ...fields
      .filter(
        (field) =>
          isObject(field) && field['type'] !== undefined && !fieldTypes.includes(String(field['type'])),
      )
      .map(() => 'schema: unknown type'),
  ];
}
