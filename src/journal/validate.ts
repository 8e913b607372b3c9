import { z } from 'zod';
import { type Fault, nearestNames, type Place, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import type { YamlPath, YamlReading } from './yaml.ts';

type Issue = z.core.$ZodIssue;

/** Data that fits a schema, or null with a problem at the line of each key that does not. */
export function validate<S extends z.ZodType>(
  schema: S,
  yaml: YamlReading,
): { data: z.output<S> | null; problems: Problem[] } {
  const result = schema.safeParse(yaml.value ?? {});
  if (result.success) return { data: result.data, problems: [] };
  return { data: null, problems: result.error.issues.flatMap((issue) => problemsOf(issue, schema, yaml)) };
}

function problemsOf(issue: Issue, schema: z.ZodType, yaml: YamlReading): Problem[] {
  if (issue.code === 'unrecognized_keys') {
    const known = keysAt(schema, issue.path, yaml.value);
    return issue.keys.map((key) =>
      problemAt(
        yaml.placeOfKey([...issue.path, key]),
        messages.unknownKey(key, nearestNames(key, known), known),
      ),
    );
  }
  const fitting = issue.code === 'invalid_union' ? issuesOfFittingKind(issue) : undefined;
  if (fitting) return fitting.flatMap((inner) => problemsOf(inner, schema, yaml));
  if (issue.code === 'invalid_key') {
    const key = String(issue.path.at(-1));
    return issue.issues.map((inner) => problemAt(yaml.placeOfKey(issue.path), faultOf(inner, key)));
  }
  return [problemAt(placeOf(issue, yaml), faultOf(issue, valueAt(yaml.value, issue.path)))];
}

/** What is wrong in the member of a union that takes values of this kind; undefined where none does. */
function issuesOfFittingKind({ path, ...issue }: z.core.$ZodIssueInvalidUnion): Issue[] | undefined {
  const errors = 'errors' in issue ? issue.errors : [];
  const isOtherKind = ({ path: within, code }: Issue) => within.length === 0 && code.startsWith('invalid_');
  const found = errors.find((issues) => issues.length > 0 && !issues.some(isOtherKind));
  return found?.map((inner) => ({ ...inner, path: [...path, ...inner.path] }));
}

/** A missing key is reported at the object that lacks it. */
function placeOf(issue: Issue, yaml: YamlReading): Place {
  const { path } = issue;
  const missing = valueAt(yaml.value, path) === undefined && path.length > 0;
  return missing && path.length > 1 ? yaml.placeOfKey(path.slice(0, -1)) : yaml.placeOf(path);
}

function faultOf(issue: Issue, value: unknown): Fault {
  if (value === undefined) return messages.missingKey(String(issue.path.at(-1) ?? 'frontmatter'));
  if (value === null) return messages.empty();
  switch (issue.code) {
    case 'custom':
      return customFault(issue.message, issue.params);
    case 'invalid_type':
      return messages.wrongType(typeWords[issue.expected] ?? issue.expected, describe(value));
    case 'invalid_union':
      if ('options' in issue && Array.isArray(issue.options)) return oneOf(value, issue.options.map(String));
      return messages.wrongType(issue.message, describe(value));
    case 'invalid_value':
      return oneOf(value, issue.values.map(String));
    case 'too_small':
    case 'too_big':
      return messages.badValue(sizeMessage(issue));
    default:
      return messages.badValue(`${describe(value)} does not fit: ${issue.message}`);
  }
}

function customFault(message: string, params: Record<string, unknown> | undefined): Fault {
  const { rule, hint } = params ?? {};
  const fault: Fault = { rule: typeof rule === 'string' ? rule : 'value', message };
  return typeof hint === 'string' ? { ...fault, hint } : fault;
}

const oneOf = (value: unknown, options: string[]) =>
  messages.notOneOf(
    describe(value),
    nearestNames(
      String(value),
      options.filter((option) => /\w/.test(option)),
    ),
    options.map((option) => JSON.stringify(option)),
  );

/** Sizes are checked of texts, which may not be empty, and of lists. */
function sizeMessage(issue: Extract<Issue, { code: 'too_small' | 'too_big' }>): string {
  if (issue.origin === 'string') return 'This text is empty; write something here.';
  return issue.code === 'too_small'
    ? `There are too few entries; ${issue.minimum} are expected.`
    : `There are too many entries; at most ${issue.maximum} are expected.`;
}

const typeWords: Readonly<Record<string, string>> = {
  string: 'A text is expected',
  boolean: 'Either true or false is expected',
  array: 'A list is expected',
  object: 'A group of keys is expected',
  record: 'A group of keys is expected',
  tuple: 'A list of two is expected',
};

function describe(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  if (typeof value === 'object') return 'a group of keys';
  return typeof value === 'string' ? `"${value}"` : String(value);
}

function valueAt(value: unknown, path: YamlPath): unknown {
  let here = value;
  for (const step of path) here = (here as Record<PropertyKey, unknown> | null | undefined)?.[step];
  return here;
}

/** The keys that a schema knows at the path of a value; empty where it does not describe keys. */
function keysAt(schema: unknown, path: YamlPath, value: unknown): string[] {
  let here = unwrap(schema, value);
  let held = value;
  for (const step of path) {
    held = valueAt(held, [step]);
    if (here instanceof z.ZodObject) here = unwrap(here.shape[String(step)], held);
    else if (here instanceof z.ZodArray) here = unwrap(here.element, held);
    else if (here instanceof z.ZodRecord) here = unwrap(here.valueType, held);
  }
  return here instanceof z.ZodObject ? Object.keys(here.shape) : [];
}

/** The schema that a value is held against, without what surrounds it. */
function unwrap(schema: unknown, value: unknown): unknown {
  let here = schema;
  while (here instanceof z.ZodOptional || here instanceof z.ZodDefault) here = here.unwrap();
  if (here instanceof z.ZodDiscriminatedUnion) return optionFor(here, value);
  if (!(here instanceof z.ZodUnion)) return here;
  return here.options.find((option) => option instanceof z.ZodArray === Array.isArray(value));
}

/** The member of a union that the value's own discriminator chooses. */
function optionFor({ def }: z.ZodDiscriminatedUnion, value: unknown): unknown {
  const chosen = valueAt(value, [def.discriminator]);
  return def.options.find((option) => {
    const key = option instanceof z.ZodObject ? option.shape[def.discriminator] : null;
    return key instanceof z.ZodType && key.safeParse(chosen).success;
  });
}
