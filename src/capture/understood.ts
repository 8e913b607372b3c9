import type { Built } from './built.ts';
import type { Encoding } from './decode.ts';
import type { Finished } from './finished.ts';
import type { Layout } from './layout.ts';
import { tidyName } from './names.ts';
import type { CaptureDeclaration, CaptureKind, ColumnDeclaration, Sampling } from './types.ts';

export interface Understood {
  kind: CaptureKind;
  encoding: Encoding;
  table: { layout: Layout; firstLine: number };
  sampling: Sampling | null;
  finished: readonly Finished[];
  /** Time and index columns, which do not leave the room as columns. */
  dropped: readonly Built[];
  declaration: CaptureDeclaration;
}

/** Writes down what was understood as the declaration under which the file reads the same. */
export function declarationOf(understood: Understood): CaptureDeclaration {
  const { kind, encoding, table, sampling, finished, dropped, declaration } = understood;
  const fromColumns = sampling === null || sampling.from === 'time column';
  const { levelAs, fullScale, reference, loadOhm } = declaration;
  const kept = finished.map(({ column, built }) => [column.name, declaredColumn(built)] as const);
  const taken = new Set(kept.map(([name]) => name));
  return {
    kind,
    encoding,
    delimiter: table.layout.delimiter,
    decimalMark: table.layout.decimalMark,
    skip: table.firstLine - 1,
    ...(fromColumns ? {} : { rateHz: sampling.rateHz }),
    ...defined({ levelAs, fullScale, reference, loadOhm }),
    columns: Object.fromEntries([...dropped.map((built) => droppedColumn(built, taken)), ...kept]),
  };
}

/** Leaves out the properties that are undefined. */
function defined<T extends object>(values: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  const entries = Object.entries(values).filter(([, value]) => value !== undefined);
  return Object.fromEntries(entries) as { [K in keyof T]?: Exclude<T[K], undefined> };
}

function declaredColumn({ sense, conversion }: Built): ColumnDeclaration {
  const { declared, unit } = sense;
  const { scale, alternative, levelAs, fullScale, reference, channel } = declared ?? {};
  return {
    column: sense.at + 1,
    quantity: conversion.quantity,
    ...defined({
      unit: unit?.text ?? (conversion.unit === '' ? undefined : conversion.unit),
      role: sense.role ?? undefined,
      order: conversion.quantity === 'harmonic' ? (sense.order ?? undefined) : undefined,
      ...{ scale, alternative, levelAs, fullScale, reference, channel },
    }),
  };
}

function droppedColumn(built: Built, taken: Set<string>): [string, ColumnDeclaration] {
  const base = tidyName(built.sense.label) || built.conversion.quantity;
  const name = taken.has(base) ? `${base}-${built.sense.at + 1}` : base;
  taken.add(name);
  return [name, declaredColumn(built)];
}
