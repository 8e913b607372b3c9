import { type BatchSpread, batchSpread } from '../compare/index.ts';
import { definitionOf } from '../figures/index.ts';
import { type LimitData, limitKey, type StatedLimits } from '../journal/schemas/index.ts';
import type { Journal, Unit, UnitRow } from '../journal/types.ts';
import { parseUnit, printNumber, printQuantity } from '../quantity/index.ts';

type Built = Pick<Journal, 'units'>;

/** Units that are built to a version, by serial number. */
export const unitsOf = (version: string, { units }: Built): Unit[] =>
  sorted(units.filter(({ data }) => data.version === version));

/** Units of an amplifier, whatever their version. */
export const unitsOfAmplifier = (amplifier: string, { units }: Built): Unit[] =>
  sorted(units.filter((unit) => unit.amplifier === amplifier));

/** Units that a capture was taken of. */
export const unitsOn = (capture: string, { units }: Built): Unit[] =>
  sorted(units.filter(({ taken }) => taken.some((one) => one.capture.id === capture)));

/** Units that some capture of a log was taken of. */
export const unitsInLog = (log: string, { units }: Built): Unit[] =>
  sorted(units.filter(({ taken }) => taken.some((one) => one.capture.log === log)));

const sorted = (units: Unit[]) =>
  units.sort((a, b) => a.data.serial.localeCompare(b.data.serial, 'en', { numeric: true }));

/** Name of what was read: of the reading, or of the figure and its channel. */
export function rowName({ name, figure }: UnitRow): string {
  if (figure === null) return name;
  return [definitionOf(figure)?.name ?? figure, name].filter(Boolean).join(', ');
}

/** What a value says of the limit that the maker states for it, in words. */
export function verdictWords(verdict: UnitRow['verdict']): string {
  switch (verdict) {
    case 'within':
      return 'within';
    case 'outside':
      return 'outside';
    case 'cannot be told':
      return 'cannot be told, the interval reaches over it';
    case 'not read':
      return 'not read yet';
    case 'no limit':
      return 'none';
  }
}

/** Bounds in words: "12.5 V to 14.5 V", "at most 350 V"; empty for none. */
export function limitText({ least, most }: StatedLimits): string {
  const text = (bound: StatedLimits['least']) => bound?.text.replaceAll(' ', '\u00a0');
  if (least && most) return `${text(least)} to ${text(most)}`;
  return least ? `at least ${text(least)}` : most ? `at most ${text(most)}` : '';
}

/** The sheet of a unit in a sentence or two. */
export function outcomeText({ rows }: Pick<Unit, 'rows'>): string {
  const counting = rows.filter(({ counts, verdict }) => counts && verdict !== 'no limit');
  const named = (verdict: UnitRow['verdict']) =>
    counting.filter((row) => row.verdict === verdict).map(rowName);
  if (counting.length === 0) return 'The maker states no limit for this version.';
  if (counting.every(({ verdict }) => verdict === 'within'))
    return `${counting.length === 1 ? 'The one value is' : `All ${counting.length} values are`} within the limits stated by the maker.`;
  const parts = [
    sentence(named('outside'), 'Outside the limits stated by the maker'),
    sentence(named('cannot be told'), 'Not told from their limits, as the interval reaches over them'),
    sentence(named('not read'), 'Not read yet'),
  ];
  return parts.filter(Boolean).join(' ');
}

const sentence = (names: readonly string[], lead: string) =>
  names.length === 0 ? '' : `${lead}: ${names.join('; ')}.`;

/** One figure or reading over the units of a batch. */
export interface BatchFigure {
  name: string;
  unit: string;
  limits: StatedLimits;
  values: { serial: string; value: number; verdict: UnitRow['verdict'] }[];
  spread: BatchSpread;
}

/** Every value that at least one unit has, over all units, in the order of the limits. */
export function batchFigures(units: readonly Unit[], stated: readonly LimitData[]): BatchFigure[] {
  const rows = units.flatMap(({ data, rows: own }) =>
    own.filter(({ counts }) => counts).map((row) => ({ serial: data.serial, row })),
  );
  const keys = [...new Set(rows.map(({ row }) => row.key))];
  return keys.flatMap((key): BatchFigure[] => {
    const found = rows.filter(({ row }) => row.key === key && row.value !== null);
    const [first] = found;
    const values = found.map(({ serial, row }) => ({ serial, value: row.value ?? 0, verdict: row.verdict }));
    const spread = batchSpread(values.map(({ value }) => value));
    if (!first || !spread) return [];
    const { unit } = first.row;
    const limits = stated.find((limit) => limitKey(limit) === key) ?? {};
    return [{ name: rowName(first.row), unit, limits, values, spread }];
  });
}

/** A size in the unit that the largest value of a batch's figure is printed in: "0.34 V" beside "13.6 V". */
export function batchText(
  { unit, spread }: Pick<BatchFigure, 'unit' | 'spread'>,
  value: number,
  digits = 3,
): string {
  if (unit === '1') return `${printNumber(100 * value, digits)}\u00a0%`;
  const shown = printQuantity(Math.max(Math.abs(spread.lowest), Math.abs(spread.highest)), unit).unit;
  const factor = shown === unit ? 1 : (parseUnit(shown)?.factor ?? 1) / (parseUnit(unit)?.factor ?? 1);
  return `${printNumber(value / factor, digits)}\u00a0${shown}`;
}
