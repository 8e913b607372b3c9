import { printDecimals, printQuantity } from '../quantity/index.ts';
import type { Display } from './methods/definition.ts';
import { definitionOf } from './registry.ts';
import type { Figure } from './types.ts';

/** A figure printed for reading; number and unit apart, the interval as one text in the same unit. */
export interface PrintedFigure {
  number: string;
  unit: string;
  /** "± 0.05" or "0.37 to 0.56", the 95 % interval; null where there is none. */
  interval: string | null;
}

/** What printing takes of a figure. */
export type Printable = Pick<Figure, 'id' | 'value' | 'unit'> & Partial<Pick<Figure, 'low' | 'high'>>;

/** Prints a figure with the digits its interval supports; null where the figure does not exist. */
export function printFigure(figure: Printable): PrintedFigure | null {
  if (figure.value === null) return null;
  const definition = definitionOf(figure.id);
  const { display = 'quantity', digits = 3 } = definition ?? {};
  const { low, high } = figure;
  if (low === undefined || high === undefined) return { ...plain(figure, display, digits), interval: null };
  return withInterval({ ...figure, value: figure.value, low, high }, display, digits);
}

function plain(
  { value, unit }: Printable,
  display: Display,
  digits: number,
): { number: string; unit: string } {
  const { factor, shown } = scaleOf(value ?? 0, unit, display, digits);
  const scaled = (value ?? 0) / factor;
  return { number: printDecimals(scaled, decimalsFor(scaled, digits)), unit: shown };
}

/** The size of something in a figure's unit, such as its spread, with so many digits: "0.012 %". */
export function sizeText(figure: Printable, digits = 2): string {
  const { number, unit } = plain(figure, definitionOf(figure.id)?.display ?? 'quantity', digits);
  return [number, unit].filter(Boolean).join('\u00a0');
}

type Bounded = Printable & { value: number; low: number; high: number };

/**
 * Two digits of the interval's half width decide where all three numbers end, but the value has no more than one
 * digit above the figure's own count: noise is not all that a capture is uncertain by. The bounds are rounded outward.
 */
function withInterval({ value, low, high, unit }: Bounded, display: Display, digits: number): PrintedFigure {
  const width = (high - low) / 2;
  const { factor, shown } = scaleOf(Math.max(Math.abs(value), width), unit, display, digits, width);
  const half = width / factor;
  const most = value === 0 ? 8 : decimalsFor(value / factor, digits + 1);
  const decimals = half > 0 ? Math.min(most, decimalsFor(half, 2)) : most;
  const outward = (number: number, round: (number: number) => number) =>
    printDecimals(round(Number((number * 10 ** decimals).toPrecision(12))) / 10 ** decimals, decimals);
  const centred = low !== 0 && Math.abs(value - (low + high) / 2) / factor <= 0.1 * half;
  const interval = centred
    ? `± ${outward(half, Math.ceil)}`
    : `${outward(low / factor, Math.floor)} to ${outward(high / factor, Math.ceil)}`;
  return { number: printDecimals(value / factor, decimals), unit: shown, interval };
}

/** A prefix that would put the interval behind the fourth decimal is left out. */
function scaleOf(
  value: number,
  unit: string,
  display: Display,
  digits: number,
  half = Number.POSITIVE_INFINITY,
) {
  if (display === 'percent') return { factor: 0.01, shown: '%' };
  if (display === 'decibel') return { factor: 1, shown: 'dB' };
  if (display === 'plain') return { factor: 1, shown: unit };
  if (half < 0.001 * Math.abs(value) && Math.abs(value) >= 1000 && half < 1)
    return { factor: 1, shown: unit };
  const shown = printQuantity(value, unit, digits).unit;
  const prefix = shown.slice(0, shown.length - (unit === '1' ? 0 : unit.length));
  return { factor: prefixFactors[prefix] ?? 1, shown };
}

const prefixFactors: Readonly<Record<string, number>> = {
  p: 1e-12,
  n: 1e-9,
  µ: 1e-6,
  m: 1e-3,
  k: 1e3,
  M: 1e6,
  G: 1e9,
};

function decimalsFor(value: number, digits: number): number {
  if (value === 0) return 0;
  const exponent = Math.floor(Math.log10(Math.abs(Number(value.toPrecision(digits)))));
  return Math.min(8, Math.max(0, digits - 1 - exponent));
}

/** The figure as one text: "0.48 % ± 0.05"; the reason where it does not exist. */
export function figureText(figure: Figure): string {
  const printed = printFigure(figure);
  if (!printed) return figure.absent ?? 'not known';
  const { number, unit, interval } = printed;
  const bounds = interval && (interval.startsWith('±') ? interval : `(${interval})`);
  const value = [number, unit, bounds].filter(Boolean).join('\u00a0');
  return figure.remark === undefined ? value : `${value}, ${figure.remark}`;
}
