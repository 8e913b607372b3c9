import type { Fault } from '../problem/index.ts';
import { type HeaderUnit, type LevelUnit, type LinearUnit, quantityOfUnit } from './header-unit.ts';
import { isSampled } from './kind.ts';
import * as say from './messages.ts';
import type { Sense } from './senses.ts';
import { throughLoad } from './through-load.ts';
import type { CaptureDeclaration, CaptureKind, ColumnQuantity, LevelAs } from './types.ts';

/** How a column's numbers become SI values. */
export interface Conversion {
  quantity: ColumnQuantity;
  unit: string;
  /** Null where the conversion is no plain factor. */
  factor: number | null;
  /** For people: "mV, times 0.001". */
  text: string;
  convert: (value: number) => number;
}

/** What the conversion depends on besides the column. */
export interface ConversionContext {
  kind: CaptureKind;
  declaration: CaptureDeclaration;
}

/** Finds the conversion of a column; a missing reference, load or unit is a fault that asks. */
export function conversionOf(sense: Sense, context: ConversionContext): Conversion | Fault {
  if (sense.quantity === 'harmonic' && sense.order === null) return say.orderMissing(columnName(sense));
  const unit = sense.unit ?? assumedUnit(sense, context.kind);
  if (!unit) return say.unitMissing(columnName(sense), sense.quantity, sense.unknownUnit);
  const read = unit.kind === 'level' ? fromDecibels(unit, sense, context) : fromNumber(unit, sense, context);
  return 'rule' in read ? read : toQuantity(read, sense, context);
}

export const columnName = (sense: Sense) => sense.declared?.name ?? sense.header ?? `column ${sense.at + 1}`;

/** SI units that a name implies on its own. Levels, ratios and angles are written in several ways. */
const natural: Partial<Record<ColumnQuantity, string>> = {
  time: 's',
  frequency: 'Hz',
  voltage: 'V',
  current: 'A',
  power: 'W',
  impedance: 'Ω',
  temperature: '°C',
  index: '',
  number: '',
};

function assumedUnit({ quantity, unknownUnit }: Sense, kind: CaptureKind): LinearUnit | null {
  const si = quantity === null || (quantity === 'level' && isSampled(kind)) ? '' : natural[quantity];
  if (si === undefined || (si !== '' && unknownUnit !== null)) return null;
  return { text: '', kind: 'linear', si, factor: 1 };
}

const asRms: Readonly<Record<LevelAs, number>> = {
  rms: 1,
  peak: Math.SQRT1_2,
  'peak-to-peak': Math.SQRT1_2 / 2,
};

/** A linear unit; voltage and current levels of a sweep become rms values of a sine. */
function fromNumber(
  unit: LinearUnit,
  sense: Sense,
  { kind, declaration }: ConversionContext,
): Conversion | Fault {
  const quantity = linearQuantity(unit, sense);
  if (sense.quantity === null && unit.si === '1') return say.quantityMissing(columnName(sense), unit.text);
  const isLevel = isSweep(kind) && (unit.si === 'V' || unit.si === 'A');
  const levelAs = isLevel ? (sense.declared?.levelAs ?? unit.levelAs ?? declaration.levelAs ?? 'rms') : null;
  const factor = unit.factor * (sense.declared?.scale ?? 1) * (levelAs ? asRms[levelAs] : 1);
  const text = [linearText(unit, factor), levelText(levelAs, unit)].filter((part) => part !== '').join(', ');
  return { quantity, unit: unit.si, factor, text, convert: times(factor) };
}

/** Divides where the factor is one over a whole number, which keeps 60 mA at 0.06 A to the last bit. */
function times(factor: number): (value: number) => number {
  const divisor = Math.round(1 / factor);
  const isWhole = divisor > 1 && Math.abs(divisor * factor - 1) < 4 * Number.EPSILON;
  return isWhole ? (value) => value / divisor : (value) => value * factor;
}

function linearQuantity(unit: LinearUnit, { quantity }: Sense): ColumnQuantity {
  if (quantity === null) return unit.text === '' ? 'number' : (quantityOfUnit(unit) ?? 'number');
  return quantity === 'level' && unit.si === '' ? 'number' : quantity;
}

const isSweep = (kind: CaptureKind) => kind.endsWith('-sweep') || kind === 'spectrum';

function linearText(unit: LinearUnit, factor: number): string {
  const read = unit.text === '' ? `no unit in the file, read as ${unit.si || 'a bare number'}` : unit.text;
  return factor === 1 ? read : `${read}, times ${Number(factor.toPrecision(6))}`;
}

function levelText(levelAs: LevelAs | null, unit: LinearUnit): string {
  if (levelAs === null || (levelAs === 'rms' && unit.levelAs === 'rms')) return '';
  return levelAs === 'rms' ? 'rms' : `from ${levelAs} to rms of a sine`;
}

const ratios: readonly (ColumnQuantity | null)[] = ['gain', 'thd', 'thd-plus-noise', 'harmonic'];

function fromDecibels(unit: LevelUnit, sense: Sense, context: ConversionContext): Conversion | Fault {
  const isRatio = ratios.includes(sense.quantity) && unit.si === null && !unit.fullScale;
  const reference = isRatio ? 1 : referenceOf(unit, sense, context.declaration);
  if (typeof reference !== 'number') return reference;
  const si = isRatio ? '1' : (unit.si ?? siOf(sense.quantity));
  const perDecade = si === 'W' ? 10 : unit.perDecade;
  const factor = reference * (sense.declared?.scale ?? 1) * asRms[sense.declared?.levelAs ?? 'rms'];
  return {
    quantity: sense.quantity ?? quantityOfUnit(unit) ?? 'level',
    unit: si,
    factor: null,
    text: decibelText(unit, si, reference),
    convert: (value) => factor * 10 ** (value / perDecade),
  };
}

function decibelText(unit: HeaderUnit, si: string, reference: number): string {
  if (si === '1') return `${unit.text}, as a ratio`;
  return `${unit.text} re ${Number(reference.toPrecision(6))} ${si}, as ${si === 'W' ? 'power' : 'rms value'}`;
}

const siOf = (quantity: ColumnQuantity | null) =>
  quantity === 'current' ? 'A' : quantity === 'power' ? 'W' : quantity === 'impedance' ? 'Ω' : 'V';

function referenceOf(unit: LevelUnit, sense: Sense, declaration: CaptureDeclaration): number | Fault {
  if (unit.reference !== null) return unit.reference;
  if (unit.fullScale) {
    return sense.declared?.fullScale ?? declaration.fullScale ?? say.fullScaleMissing(columnName(sense));
  }
  return sense.declared?.reference ?? declaration.reference ?? say.referenceMissing(columnName(sense));
}

const levels: readonly ColumnQuantity[] = ['voltage', 'current', 'power'];
const quantityOfSi: Readonly<Record<string, ColumnQuantity>> = { V: 'voltage', A: 'current', W: 'power' };

/** Checks that the unit measures the column's quantity, and passes between power and voltage by the load. */
function toQuantity(read: Conversion, sense: Sense, { declaration }: ConversionContext): Conversion | Fault {
  const measured = quantityOfSi[read.unit];
  const wanted = read.quantity === 'level' ? measured : read.quantity;
  if (!wanted || !fits(wanted, read.unit)) {
    return say.unitMismatch(columnName(sense), read.quantity, sense.unit?.text ?? '');
  }
  if (wanted === measured || !measured || !levels.includes(wanted)) return { ...read, quantity: wanted };
  const { loadOhm } = declaration;
  if (loadOhm === undefined) return say.loadMissing(columnName(sense), sense.unit?.text ?? '', wanted);
  return throughLoad(read, measured, wanted, loadOhm);
}

const unitsOf: Readonly<Record<ColumnQuantity, readonly string[] | null>> = {
  index: [''],
  time: ['s'],
  frequency: ['Hz'],
  voltage: ['V', 'W'],
  current: ['A', 'W'],
  power: ['V', 'A', 'W'],
  impedance: ['Ω'],
  gain: ['1'],
  phase: ['deg'],
  thd: ['1', 'V', 'A'],
  'thd-plus-noise': ['1', 'V', 'A'],
  harmonic: ['1', 'V', 'A'],
  level: ['V', 'A', 'W'],
  temperature: ['°C'],
  number: null,
};

const fits = (quantity: ColumnQuantity, si: string) => unitsOf[quantity]?.includes(si) ?? true;
