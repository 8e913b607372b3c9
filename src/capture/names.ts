import type { Built } from './built.ts';
import { isSampled } from './kind.ts';
import type { CaptureKind, ColumnQuantity } from './types.ts';

const longestName = 32;

/** A short name that can stand behind the # of `capture#channel`. */
export function tidyName(label: string): string {
  return label
    .normalize('NFC')
    .replace(/[^\p{L}\p{N}_.+-]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, longestName)
    .replace(/-+$/, '');
}

const shortNames: Partial<Record<ColumnQuantity, string>> = { 'thd-plus-noise': 'thd+n' };

/** One name for each column: the declared one, its label, or its quantity; doubles get a number. */
export function namesOf(
  columns: readonly Built[],
  kind: CaptureKind,
): { names: string[]; doubles: string[] } {
  const wanted = columns.map((column, at) => column.sense.declared?.name ?? ownName(column, kind, at));
  const taken = new Set(columns.flatMap(({ sense }) => sense.declared?.name ?? []));
  const doubles = new Set<string>();
  const names = wanted.map((name, at) => {
    if (columns[at]?.sense.declared) return name;
    const free = freeName(name, taken);
    if (free !== name) doubles.add(name);
    taken.add(free);
    return free;
  });
  return { names, doubles: [...doubles] };
}

function ownName({ sense, conversion }: Built, kind: CaptureKind, at: number): string {
  const label = tidyName(sense.label);
  if (label !== '') return label;
  if (isSampled(kind)) return `ch${at + 1}`;
  if (conversion.quantity === 'harmonic') return `h${sense.order ?? ''}`;
  return shortNames[conversion.quantity] ?? conversion.quantity;
}

function freeName(name: string, taken: ReadonlySet<string>): string {
  if (!taken.has(name)) return name;
  let count = 2;
  while (taken.has(`${name}-${count}`)) count++;
  return `${name}-${count}`;
}
