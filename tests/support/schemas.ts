import { readFileSync } from 'node:fs';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';

const ajv = new Ajv2020({ strict: true, allowUnionTypes: true, strictRequired: false, allErrors: true });
ajv.addSchema(schemaOf('inspect'));
const compiled = new Map<string, ValidateFunction>();

/**
 * What keeps a document from fitting the schema of a command's output, or of a record such as `records/log`, as one line
 * each; none where it fits.
 */
export function schemaFaults(name: string, document: unknown): string[] {
  const validate = compiled.get(name) ?? compile(schemaOf(name));
  compiled.set(name, validate);
  validate(document);
  return (validate.errors ?? []).map(({ instancePath, message, params }) => {
    return `${instancePath || '/'} ${message} ${JSON.stringify(params)}`;
  });
}

/** The schema of its own name is taken where it is known already, as others refer to it. */
const compile = (schema: { $id: string }) => ajv.getSchema(schema.$id) ?? ajv.compile(schema);

export function schemaOf(name: string): { $id: string } {
  return JSON.parse(readFileSync(`shared/schemas/${name}.schema.json`, 'utf8')) as { $id: string };
}
