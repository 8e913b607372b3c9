import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, strictRequired: false, allErrors: true });
const compiled = new Map<string, ValidateFunction>();

/** What keeps a document from fitting the schema of a command's output, as one line each; none where it fits. */
export function schemaFaults(name: 'check' | 'load' | 'inspect', document: unknown): string[] {
  const validate = compiled.get(name) ?? ajv.compile(schemaOf(name));
  compiled.set(name, validate);
  validate(document);
  return (validate.errors ?? []).map(({ instancePath, message, params }) => {
    return `${instancePath || '/'} ${message} ${JSON.stringify(params)}`;
  });
}

export function schemaOf(name: string): object {
  return JSON.parse(readFileSync(`shared/schemas/${name}.schema.json`, 'utf8')) as object;
}
