import type { Fault } from '../problem/index.ts';
import type { Declared } from './declared.ts';
import type { HeaderText } from './header-text.ts';
import { type HeaderUnit, parseHeaderUnit } from './header-unit.ts';
import * as say from './messages.ts';
import type { Note } from './notes.ts';
import { type Meaning, plainWords } from './words.ts';

/** The unit of a column, or what stands in its place. */
export interface ColumnUnit {
  unit: HeaderUnit | null;
  /** Text in the place of a unit that is no unit we know. */
  unknown: string | null;
  fault?: Fault;
}

/** Where the unit of a column may be written. */
export interface UnitSources {
  declared: Declared | null;
  header: HeaderText;
  meaning: Meaning | null;
  unitCell: string;
  notes: readonly Note[];
}

/** Finds a column's unit: a declared one outranks unit row and header, and these a preamble line. */
export function columnUnit(sources: UnitSources): ColumnUnit {
  const declared = sources.declared?.unit;
  return declared === undefined ? writtenUnit(sources) : declaredUnit(declared);
}

function declaredUnit(text: string): ColumnUnit {
  const unit = parseHeaderUnit(text);
  return unit ? { unit, unknown: null } : { unit, unknown: null, fault: say.unitUnknown(text) };
}

function writtenUnit({ header, meaning, unitCell, notes }: UnitSources): ColumnUnit {
  const row = parseHeaderUnit(unitCell);
  if (row && header.unit && !isSame(row, header.unit)) {
    return { unit: row, unknown: null, fault: say.unitTwice(header.unit.text, row.text) };
  }
  const unit = row ?? header.unit;
  const unknown = unit ? null : (header.unknown ?? (unitCell === '' ? null : unitCell));
  return unit || unknown !== null ? { unit, unknown } : { unit: noteUnit(header, meaning, notes), unknown };
}

const isSame = (a: HeaderUnit, b: HeaderUnit) =>
  JSON.stringify({ ...a, text: '' }) === JSON.stringify({ ...b, text: '' });

/** A preamble line such as "Vertical unit: mV" or "CH1 units, V". */
function noteUnit({ label }: HeaderText, meaning: Meaning | null, notes: readonly Note[]): HeaderUnit | null {
  const axis = meaning?.quantity === 'time' ? ['horizontal', 'x', 'time'] : ['vertical', 'y'];
  const names = [...axis, plainWords(label)].filter((name) => name !== '');
  const keys = names.flatMap((name) => [`${name} unit`, `${name} units`, `${name} axis unit`]);
  const found = notes.find((note) => keys.includes(plainWords(note.key)));
  return found ? parseHeaderUnit(found.value) : null;
}
