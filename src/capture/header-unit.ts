import { type Dimension, parseQuantity, parseUnit, type Unit, unitNames } from '../quantity/index.ts';
import type { ColumnQuantity, LevelAs } from './types.ts';

/** A unit of a column: numbers times `factor`, or decibels re `reference`. */
export type HeaderUnit = LinearUnit | LevelUnit;

export interface LinearUnit {
  text: string;
  kind: 'linear';
  /** V, A, W, Ω, Hz, s, deg, °C, 1 for ratios, '' for a count. */
  si: string;
  factor: number;
  /** Said by the unit itself, as in Vpp. */
  levelAs?: LevelAs;
}

export interface LevelUnit {
  text: string;
  kind: 'level';
  perDecade: 10 | 20;
  /** Value of 0 dB; null for plain decibels and dBFS, which are re something that the unit does not name. */
  reference: number | null;
  /** V, A or W where the unit names its reference. */
  si: string | null;
  fullScale: boolean;
}

const columnDimensions: Partial<Record<Dimension, ColumnQuantity>> = {
  voltage: 'voltage',
  current: 'current',
  resistance: 'impedance',
  power: 'power',
  frequency: 'frequency',
  time: 'time',
  temperature: 'temperature',
  angle: 'phase',
};

const bySi: Readonly<Record<string, ColumnQuantity>> = {
  V: 'voltage',
  A: 'current',
  W: 'power',
  Ω: 'impedance',
  Hz: 'frequency',
  s: 'time',
  deg: 'phase',
  '°C': 'temperature',
};

/** What a column in this unit measures, as far as the unit alone can say; null for ratios and decibels. */
export function quantityOfUnit(unit: HeaderUnit): ColumnQuantity | null {
  if (unit.kind === 'level') return unit.fullScale ? 'level' : (bySi[unit.si ?? ''] ?? null);
  return unit.si === '' ? 'index' : (bySi[unit.si] ?? null);
}

/** Reads a unit as headers print it, with or without brackets; null where it is none that a column can have. */
export function parseHeaderUnit(written: string): HeaderUnit | null {
  const text = withoutBrackets(written.trim());
  if (text === '') return null;
  if (/^(?:sequence|samples?|points?|index|counts?|#)$/i.test(text)) return count(text);
  if (/^dB/i.test(text)) return decibels(text);
  return marked(text) ?? linear(text, tolerant(text));
}

const withoutBrackets = (text: string) => /^[([{](.*)[)\]}]$/.exec(text)?.[1]?.trim() ?? text;

const count = (text: string): LinearUnit => ({ text, kind: 'linear', si: '', factor: 1 });

function linear(text: string, unit: string): LinearUnit | null {
  if (unit === '1') return { text, kind: 'linear', si: '1', factor: 1 };
  const found = parseUnit(unit);
  if (!found || !isColumnUnit(found)) return null;
  return { text, kind: 'linear', si: found.si, factor: found.factor };
}

const isColumnUnit = (unit: Unit) =>
  unit.dimension === 'ratio' || columnDimensions[unit.dimension] !== undefined;

const spellings: Readonly<Record<string, string>> = {
  S: 's',
  v: 'V',
  mv: 'mV',
  hz: 'Hz',
  HZ: 'Hz',
  khz: 'kHz',
  KHZ: 'kHz',
  Mhz: 'MHz',
  MHZ: 'MHz',
  uS: 'us',
  VDC: 'V',
  Vdc: 'V',
  VAC: 'V',
  Vac: 'V',
  ADC: 'A',
  C: '°C',
  pct: '%',
  ratio: '1',
};

/** Words in any case, and the commonest misspellings whose meaning is certain. */
function tolerant(text: string): string {
  const known = Object.hasOwn(spellings, text) ? spellings[text] : undefined;
  if (known || !/^[a-zµμ]{3,}$/iu.test(text) || parseUnit(text)) return known ?? text;
  const lower = text.toLowerCase().replace(/secs$/, 'sec');
  // A capital M stays: it may be mega.
  return unitNames().includes(lower) ? lower : text.slice(0, 1) + lower.slice(1);
}

const marks: readonly [RegExp, LevelAs][] = [
  [/[-_ ]?(?:rms|eff)$/i, 'rms'],
  [/[-_ ]?(?:p-?p|pk-?pk)$/i, 'peak-to-peak'],
  [/[-_ ]?(?:pk?|peak)$/i, 'peak'],
];

/** Volts or amperes with a mark: Vrms, mV RMS, Vpp, Vp-p, Apk. */
function marked(text: string): LinearUnit | null {
  const found = marks.find(([mark]) => mark.test(text));
  if (!found) return null;
  const unit = linear(text, tolerant(text.replace(found[0], '').trim()));
  return unit && (unit.si === 'V' || unit.si === 'A') ? { ...unit, levelAs: found[1] } : null;
}

const namedReferences: Readonly<Record<string, [number, string]>> = {
  dBmV: [1e-3, 'V'],
  dBµV: [1e-6, 'V'],
  dBμV: [1e-6, 'V'],
  dBuV: [1e-6, 'V'],
};

function decibels(written: string): LevelUnit | null {
  const text = written.replace(/^db/i, 'dB').trim();
  const base: LevelUnit = {
    text: written,
    kind: 'level',
    perDecade: 20,
    reference: null,
    si: null,
    fullScale: false,
  };
  if (text === 'dB' || text === 'dBr' || text === 'dBc') return base;
  if (/^dB ?FS$/i.test(text)) return { ...base, fullScale: true };
  const named = namedReferences[text];
  if (named) return { ...base, reference: named[0], si: named[1] };
  return reReference(text, base) ?? standardLevel(text, base);
}

/** "dB re 1 V", "dB (re 0.775 V)", "dB re: 1 mW". */
function reReference(text: string, base: LevelUnit): LevelUnit | null {
  const value = /^dB\s*\(?\s*re[:.]?\s*([^)]+)\)?$/i.exec(text)?.[1];
  if (value === undefined) return null;
  for (const dimension of ['voltage', 'current', 'power'] as const) {
    const reading = parseQuantity(value, dimension);
    if ('quantity' in reading) return re(reading.quantity.value, reading.quantity.unit, base);
  }
  return null;
}

const re = (reference: number, si: string, base: LevelUnit): LevelUnit => ({
  ...base,
  perDecade: si === 'W' ? 10 : 20,
  reference,
  si,
});

function standardLevel(text: string, base: LevelUnit): LevelUnit | null {
  const level = parseUnit(text)?.level;
  if (!level) return null;
  const { perDecade, reference, referenceUnit } = level;
  return { ...base, perDecade, reference, si: referenceUnit };
}
