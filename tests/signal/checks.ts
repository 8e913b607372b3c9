import { readFileSync } from 'node:fs';

interface Check {
  id: string;
  value: number | number[];
  source: string;
  status: string;
}

const files = new Map<string, Map<string, Check>>();

const folder = new URL('../../shared/checks/', import.meta.url);

function checksOf(file: string): Map<string, Check> {
  const known = files.get(file);
  if (known) return known;
  const { checks } = JSON.parse(readFileSync(new URL(`${file}.json`, folder), 'utf8')) as { checks: Check[] };
  const read = new Map(checks.map((check) => [check.id, check]));
  files.set(file, read);
  return read;
}

function find(file: string, id: string): Check {
  const check = checksOf(file).get(id);
  if (!check) throw new Error(`shared/checks/${file}.json has no check "${id}"`);
  return check;
}

/** A published or computed check value of shared/checks, where its source stands beside it. */
export function check(file: string, id: string): number {
  const { value } = find(file, id);
  if (typeof value !== 'number') throw new Error(`"${id}" is a list`);
  return value;
}

/** A list of check values. */
export function checkList(file: string, id: string): number[] {
  const { value } = find(file, id);
  if (typeof value === 'number') throw new Error(`"${id}" is a single number`);
  return value;
}

/** One column of a CSV file of shared/checks, counted from 0, without its header. */
export function csvColumn(file: string, column: number): Float64Array {
  const lines = readFileSync(new URL(file, folder), 'utf8').trim().split('\n').slice(1);
  return Float64Array.from(lines, (line) => Number(line.split(',')[column]));
}
