/** What a quantity measures. */
export type Dimension =
  | 'voltage'
  | 'current'
  | 'resistance'
  | 'power'
  | 'energy'
  | 'frequency'
  | 'time'
  | 'capacitance'
  | 'inductance'
  | 'transconductance'
  | 'temperature'
  | 'thermal resistance'
  | 'mass'
  | 'length'
  | 'angle'
  | 'ratio'
  | 'level';

/** Logarithmic units: value = reference · 10^(number / perDecade). A null reference must be declared. */
export interface LevelScale {
  perDecade: 10 | 20;
  reference: number | null;
  referenceUnit: 'V' | 'W' | null;
}

/** One unit as written, and how a number in it becomes SI. */
export interface Unit {
  /** The unit as it was written. */
  text: string;
  dimension: Dimension;
  /** SI symbol of the converted value; '1' for plain ratios. */
  si: string;
  /** SI value of one; 1 for logarithmic units, which convert by `level` instead. */
  factor: number;
  level?: LevelScale;
}

interface UnitEntry {
  names: readonly string[];
  dimension: Dimension;
  si: string;
  factor?: number;
  prefixed?: boolean;
  level?: LevelScale;
}

const amplitude = (reference: number | null, referenceUnit: LevelScale['referenceUnit']): LevelScale => ({
  perDecade: 20,
  reference,
  referenceUnit,
});

/**
 * Units and their names; `prefixed` units take SI prefixes.
 * @source SI Brochure, 9th edition, tables 2, 4 and 7; dBu: 0 dBu is the voltage of 1 mW in 600 Ω, √0.6 V.
 */
const entries: readonly UnitEntry[] = [
  { names: ['V', 'volt', 'volts'], dimension: 'voltage', si: 'V', prefixed: true },
  { names: ['A', 'amp', 'amps', 'ampere', 'amperes'], dimension: 'current', si: 'A', prefixed: true },
  { names: ['Ω', '\u2126', 'ohm', 'ohms', 'Ohm', 'Ohms'], dimension: 'resistance', si: 'Ω', prefixed: true },
  { names: ['W', 'watt', 'watts', 'VA'], dimension: 'power', si: 'W', prefixed: true },
  { names: ['J', 'joule', 'joules'], dimension: 'energy', si: 'J', prefixed: true },
  { names: ['Hz', 'hertz'], dimension: 'frequency', si: 'Hz', prefixed: true },
  { names: ['S/s', 'Sa/s'], dimension: 'frequency', si: 'Hz', prefixed: true },
  { names: ['s', 'sec', 'second', 'seconds'], dimension: 'time', si: 's', prefixed: true },
  { names: ['min'], dimension: 'time', si: 's', factor: 60 },
  { names: ['h'], dimension: 'time', si: 's', factor: 3600 },
  { names: ['F', 'farad'], dimension: 'capacitance', si: 'F', prefixed: true },
  { names: ['H', 'henry'], dimension: 'inductance', si: 'H', prefixed: true },
  { names: ['S', 'siemens', 'A/V'], dimension: 'transconductance', si: 'S', prefixed: true },
  { names: ['°C', 'degC', '℃'], dimension: 'temperature', si: '°C' },
  { names: ['K/W', '°C/W'], dimension: 'thermal resistance', si: 'K/W' },
  { names: ['g', 'gram', 'grams'], dimension: 'mass', si: 'kg', factor: 0.001, prefixed: true },
  { names: ['m', 'metre', 'meter'], dimension: 'length', si: 'm', prefixed: true },
  { names: ['°', 'deg', 'degree', 'degrees'], dimension: 'angle', si: 'deg' },
  { names: ['rad', 'radian', 'radians'], dimension: 'angle', si: 'deg', factor: 180 / Math.PI },
  { names: ['%', 'percent'], dimension: 'ratio', si: '1', factor: 0.01 },
  { names: ['ppm'], dimension: 'ratio', si: '1', factor: 1e-6 },
  { names: ['dB'], dimension: 'level', si: 'dB', level: amplitude(null, null) },
  { names: ['dBV'], dimension: 'level', si: 'V', level: amplitude(1, 'V') },
  { names: ['dBu'], dimension: 'level', si: 'V', level: amplitude(Math.sqrt(0.6), 'V') },
  {
    names: ['dBm'],
    dimension: 'level',
    si: 'W',
    level: { perDecade: 10, reference: 0.001, referenceUnit: 'W' },
  },
  {
    names: ['dBW'],
    dimension: 'level',
    si: 'W',
    level: { perDecade: 10, reference: 1, referenceUnit: 'W' },
  },
  { names: ['dBFS', 'dB FS'], dimension: 'level', si: 'dB', level: amplitude(null, null) },
];

/** SI prefixes in use at the bench; `u` stands for micro where a keyboard has no µ. */
const prefixes: Readonly<Record<string, number>> = {
  p: 1e-12,
  n: 1e-9,
  u: 1e-6,
  µ: 1e-6,
  μ: 1e-6,
  m: 1e-3,
  k: 1e3,
  K: 1e3,
  M: 1e6,
  G: 1e9,
};

const byName = new Map(entries.flatMap((entry) => entry.names.map((name) => [name, entry] as const)));

/**
 * Reads a unit as people write it, SI prefix included: `mV`, `kΩ`, `kohm`, `µF`, `MHz`, `mA/V`, `dBu`, `%`.
 * Returns null for anything else. Letter case counts, as m and M differ by nine decades.
 */
export function parseUnit(text: string): Unit | null {
  const written = text.trim();
  const whole = byName.get(written);
  if (whole) return unitOf(written, whole, 1);
  const entry = byName.get(written.slice(1).trimStart());
  const factor = prefixes[written.slice(0, 1)];
  return entry?.prefixed && factor !== undefined ? unitOf(written, entry, factor) : null;
}

function unitOf(text: string, entry: UnitEntry, prefix: number): Unit {
  const { dimension, si, level } = entry;
  const unit: Unit = { text, dimension, si, factor: (entry.factor ?? 1) * prefix };
  return level ? { ...unit, level } : unit;
}

/** Every unit name without prefix, for hints about misspelt units. */
export function unitNames(): string[] {
  return [...byName.keys()];
}
