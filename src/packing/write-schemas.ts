import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { recordSchemas } from './record-schemas.ts';

/** Writes the JSON Schemas of the records into `shared/schemas/records`. */
const folder = path.join(import.meta.dirname, '../../shared/schemas/records');
rmSync(folder, { recursive: true, force: true });
mkdirSync(folder, { recursive: true });
for (const [name, text] of Object.entries(recordSchemas())) writeFileSync(path.join(folder, name), text);
