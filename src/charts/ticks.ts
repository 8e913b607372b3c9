import { type Axis, along, within } from './axis.ts';
import { fixed } from './format.ts';
import { textWidth } from './text-width.ts';
import { fontSize } from './theme.ts';

/** Where an axis has a rule across the plot, and which of these carry a number. */
export interface Ticks {
  values: number[];
  labelled: number[];
}

/** The numbers of an axis as they are printed. */
export const printedNumbers = ({ labelled }: Ticks, { text }: TickPrint): string[] => labelled.map(text);

/** How the numbers of an axis are printed: by Vega's expression, and the same text for measuring. */
export interface TickPrint {
  /** Vega expression over `datum.value`. */
  expression: string;
  text: (value: number) => string;
}

/** Plain numbers without exponent: 0.01, 0.1, 1, 10. */
export const plainTick: TickPrint = {
  expression: "format(datum.value,'~r')",
  text: (value) => fixed(value, 12),
};

/** Thousands with k: 20, 200, 2k, 20k. */
export const prefixedTick: TickPrint = {
  expression: "format(datum.value,'~s')",
  text: (value) => (value < 1000 ? fixed(value, 6) : `${fixed(value / 1000, 3)}k`),
};

const clearance = 9;

/**
 * Decades with their 2 and 5 between them, inside the domain. Decades are numbered first, then the 5s and 2s
 * where there is room; an axis of less than two decades has a rule at every whole multiple.
 */
export function logTicks(axis: Axis, print: TickPrint, upright = false): Ticks {
  const [low, high] = axis.domain;
  const decades = Math.log10(high / low);
  const multiples = decades < 1.3 ? [1, 2, 3, 4, 5, 6, 7, 8, 9] : [1, 2, 5];
  const values = powersOfTen(low, high)
    .flatMap((power) => multiples.map((multiple) => Number((multiple * power).toPrecision(12))))
    .filter((value) => value >= low * (1 - 1e-9) && value <= high * (1 + 1e-9));
  return { values, labelled: numbered(axis, values, print, upright) };
}

/**
 * Adds named values to a vertical axis, numbered where they stand clear of zero and of each other (the last one
 * first); round numbers that would touch a named one give way.
 */
export function withNamed({ values, labelled }: Ticks, axis: Axis, named: readonly number[]): Ticks {
  const apart = (a: number, b: number) => Math.abs(along(axis, a) - along(axis, b)) >= fontSize + 2;
  const inside = named.filter((value) => within(axis, value));
  const kept = inside.filter(
    (value, i) =>
      (axis.kind === 'log' || apart(value, 0)) && inside.slice(i + 1).every((other) => apart(value, other)),
  );
  const clear = labelled.filter((value) => kept.every((other) => value === other || apart(value, other)));
  return { values: [...new Set([...values, ...inside])], labelled: [...new Set([...clear, ...kept])] };
}

/** True for a whole power of ten. */
export function isDecade(value: number): boolean {
  const power = Math.log10(value);
  return Math.abs(power - Math.round(power)) < 1e-9;
}

/** Round steps of 1, 2 or 5 times a power of ten, about `count` of them, all numbered. */
export function linearTicks({ domain: [low, high] }: Pick<Axis, 'domain'>, count: number): Ticks {
  const step = roundStep((high - low) / count);
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  const values = Array.from({ length: last - first + 1 }, (_, i) =>
    Number(((first + i) * step).toPrecision(12)),
  );
  return { values, labelled: values };
}

/** The smallest of 1, 2 and 5 times a power of ten that is not below a width. */
export function roundStep(width: number): number {
  const power = 10 ** Math.floor(Math.log10(width));
  return power * ([1, 2, 5, 10].find((multiple) => multiple * power >= width * (1 - 1e-9)) ?? 10);
}

/**
 * A domain opened outward to whole steps of a linear axis with about `count` of them. Ends that differ by rounding alone
 * are one value.
 */
export function roundDomain(low: number, high: number, count: number): [number, number] {
  const size = Math.max(Math.abs(low), Math.abs(high));
  const span = high - low > 1e-9 * size ? high - low : size || 1;
  const step = roundStep(span / count);
  return [step * Math.floor(low / step + 1e-9), step * Math.ceil(high / step - 1e-9)];
}

/** A domain opened outward to 1, 2 or 5 times a power of ten. */
export function roundLogDomain(low: number, high: number): [number, number] {
  return [1 / roundStep(1 / low), roundStep(high)];
}

function powersOfTen(low: number, high: number): number[] {
  const first = Math.floor(Math.log10(low) + 1e-9);
  const last = Math.floor(Math.log10(high) + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => 10 ** (first + i));
}

function numbered(axis: Axis, values: number[], print: TickPrint, upright: boolean): number[] {
  const taken: [number, number][] = [];
  const half = (value: number) => (upright ? fontSize : textWidth(print.text(value), fontSize)) / 2;
  const fits = (value: number) => {
    const [from, to] = [along(axis, value) - half(value), along(axis, value) + half(value)];
    if (taken.some(([low, high]) => from < high + clearance && to > low - clearance)) return false;
    taken.push([from, to]);
    return true;
  };
  return values
    .toSorted((a, b) => rank(a) - rank(b))
    .filter(fits)
    .toSorted((a, b) => a - b);
}

/** Order in which numbers are given room: decades, 5s and 2s by how evenly they divide, then the rest. */
function rank(value: number): number {
  const multiple = Math.round(value / 10 ** Math.floor(Math.log10(value) + 1e-9));
  return [1, 2, 5, 3, 7].indexOf(multiple) + 1 || 9;
}
