import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { recordSchemas } from './record-schemas.ts';
import { referencePages } from './reference-pages.ts';

/** Writes the JSON Schemas of the records, and the pages of the handbook that are made from them. */
const shared = path.join(import.meta.dirname, '../../shared');
const schemas = path.join(shared, 'schemas/records');
rmSync(schemas, { recursive: true, force: true });
writeAll(schemas, recordSchemas());
writeAll(path.join(shared, 'handbook/pages'), referencePages());

function writeAll(folder: string, files: Readonly<Record<string, string>>): void {
  mkdirSync(folder, { recursive: true });
  for (const [name, text] of Object.entries(files)) writeFileSync(path.join(folder, name), text);
}
