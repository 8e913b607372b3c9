import path from 'node:path';
import type { z } from 'zod';
import type { Problem } from '../problem/index.ts';
import { idOf, readText } from './files.ts';
import { splitMarkdown } from './frontmatter.ts';
import type { ProseSource } from './prose/render.ts';
import { validate } from './validate.ts';
import { readYaml, type YamlReading } from './yaml.ts';

/** A Markdown record whose frontmatter fits its schema, before references are resolved. */
export interface RawRecord<Data> {
  id: string;
  file: string;
  data: Data;
  yaml: YamlReading;
  /** The lines above the body. */
  head: string;
  source: ProseSource;
}

/** Reads one Markdown record; null with problems where it cannot be used. */
export async function readRecord<S extends z.ZodType>(
  folder: string,
  file: string,
  schema: S,
): Promise<{ record: RawRecord<z.output<S>> | null; problems: Problem[] }> {
  const { text, problems } = await readText(folder, file);
  if (text === null) return { record: null, problems };
  const split = splitMarkdown(text, file);
  if (!split.parts || split.problems.length > 0) return { record: null, problems: split.problems };
  const { frontmatter: yaml, body, bodyLine } = split.parts;
  const { data, problems: faults } = validate(schema, yaml);
  if (data === null) return { record: null, problems: faults };
  const source = { file, path: path.join(folder, file), body, bodyLine };
  const head = text.split(/\r\n?|\n/, bodyLine - 1).join('\n');
  return { record: { id: idOf(file), file, data, yaml, head, source }, problems: [] };
}

/** Reads a YAML file against a schema, keeping the positions of its keys. */
export async function readYamlFile<S extends z.ZodType>(
  folder: string,
  file: string,
  schema: S,
): Promise<{ data: z.output<S> | null; yaml: YamlReading | null; problems: Problem[] }> {
  const { text, problems } = await readText(folder, file);
  if (text === null) return { data: null, yaml: null, problems };
  const yaml = readYaml(text, file);
  if (yaml.problems.length > 0) return { data: null, yaml, problems: yaml.problems };
  return { yaml, ...validate(schema, yaml) };
}
