import type { Built } from './built.ts';
import { namesOf } from './names.ts';
import type { CaptureKind, Column, ColumnQuantity } from './types.ts';
import { ownerOf } from './words.ts';

/** A column as it leaves the room, beside what it was made from. */
export interface Finished {
  column: Column;
  built: Built;
}

/** Puts names, roles and owners on the columns; `doubles` are names that more than one column had. */
export function finishColumns(
  columns: readonly Built[],
  kind: CaptureKind,
  axis: Built | null,
): { finished: Finished[]; doubles: string[] } {
  const { names, doubles } = namesOf(columns, kind);
  const named = columns.map((built, at) => ({ built, name: names[at] ?? '' }));
  const finished = named.map(({ built, name }) => ({
    built,
    column: columnOf(built, name, built === axis, ownerName(built, named)),
  }));
  return { finished, doubles };
}

function columnOf(
  { sense, conversion, values }: Built,
  name: string,
  isAxis: boolean,
  channel?: string,
): Column {
  const { declared, role, order } = sense;
  return {
    name,
    header: sense.header,
    position: sense.at + 1,
    quantity: conversion.quantity,
    unit: conversion.unit,
    factor: conversion.factor,
    conversion: conversion.text,
    ...(role === null ? {} : { role }),
    ...(declared?.alternative === undefined ? {} : { alternative: declared.alternative }),
    ...(channel === undefined ? {} : { channel }),
    ...(order === null || conversion.quantity !== 'harmonic' ? {} : { order }),
    ...(isAxis ? { axis: true as const } : {}),
    values,
  };
}

interface Named {
  built: Built;
  name: string;
}

const owned: readonly ColumnQuantity[] = ['phase', 'thd', 'thd-plus-noise', 'harmonic'];
const owners: readonly ColumnQuantity[] = ['voltage', 'current', 'power', 'gain', 'impedance'];

/** The channel that a phase or distortion column belongs to: declared, or the level with the same words. */
function ownerName({ sense, conversion }: Built, named: readonly Named[]): string | undefined {
  if (sense.declared?.channel !== undefined) return sense.declared.channel;
  const words = ownerOf(sense.label);
  if (words === '' || !owned.includes(conversion.quantity)) return undefined;
  const isOwner = ({ built }: Named) =>
    owners.includes(built.conversion.quantity) && ownerOf(built.sense.label) === words;
  return named.find(isOwner)?.name;
}
