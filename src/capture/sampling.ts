import type { Built } from './built.ts';
import { columnName } from './convert.ts';
import * as say from './messages.ts';
import type { StatedRate } from './rates.ts';
import { type Report, topOfFile } from './report.ts';
import { halfDigitOf } from './rounding.ts';
import type { Table } from './table.ts';
import type { CaptureDeclaration, Sampling } from './types.ts';
import { largestDistance, spacingOf } from './uniform.ts';

/** What may say how fast the samples came. */
export interface RateSources {
  table: Table;
  times: readonly Built[];
  indices: readonly Built[];
  stated: readonly StatedRate[];
  declaration: CaptureDeclaration;
}

/**
 * Finds the sampling rate: a declaration outranks everything, stamps that are exact outrank the preamble,
 * and the preamble's rate is finer than stamps that are rounded. Null with an error where samples are missing,
 * out of order or unevenly spaced, or where two sources contradict each other.
 */
export function samplingOf(sources: RateSources, report: Report): Sampling | null {
  const { table, times, indices, declaration } = sources;
  if (table.rows < 2) return report.at(table.spot(0, 0), say.tooFewRows(table.rows, 2));
  const stated = oneStatedRate(sources, report);
  if (stated === undefined) return null;
  const knownHz = declaration.rateHz ?? stated?.rateHz ?? null;
  const grids = times.map((time) => timeGrid(time, table, knownHz && 1 / knownHz, report));
  const perSample = indices.map((index) => indexStep(index, table, report));
  if (grids.includes(null) || perSample.includes(null)) return null;
  const found = grids.flatMap((grid) => grid ?? []);
  if (!gridsAgree(found, report)) return null;
  const step = found.length > 0 ? 1 : (perSample[0] ?? 1);
  return chosenRate(found[0] ?? null, stated && { ...stated, rateHz: stated.rateHz / step }, sources, report);
}

/** A time column's uniform grid, in seconds. */
interface Grid {
  time: Built;
  step: number;
  start: number;
  span: number;
  /** How far the rounding of its ends leaves the span open. */
  slack: number;
  rounded: boolean;
  largestStepError: number;
}

function timeGrid(time: Built, table: Table, knownStep: number | null, report: Report): Grid | null {
  const { sense, conversion, values } = time;
  const factor = conversion.factor ?? 1;
  const halfDigit = () => {
    const half = halfDigitOf(table, sense.at);
    return (stamp: number) => half(stamp / factor) * factor;
  };
  const spacing = spacingOf(values, { halfDigit, knownStep });
  const spotOf = (row: number) => table.spot(row, sense.at);
  const stamp = (row: number) => sense.values[row] ?? 0;
  if (spacing.kind === 'still') return report.at(spotOf(1), say.timeStandsStill(stamp(0)));
  if (spacing.kind === 'decreasing') {
    const { row } = spacing;
    return report.at(spotOf(row), say.timeDecreases(stamp(row), stamp(row - 1)));
  }
  const start = values[0] ?? 0;
  const end = values.at(-1) ?? 0;
  if (spacing.kind === 'irregular') {
    const { row, step, slack } = spacing;
    const steps = ((values[row] ?? 0) - (values[row - 1] ?? 0)) / step;
    return report.at(spotOf(row), say.timeIrregular(stamp(row), steps, slack / step));
  }
  const slack = spacing.rounded ? halfDigit()(start) + halfDigit()(end) : 0;
  return { ...spacing, time, start, span: end - start, slack: slack + 1e-12 * (end - start) };
}

/** Samples from one index to the next; null with an error where an index is missing. */
function indexStep({ values, sense }: Built, table: Table, report: Report): number | null {
  const step = (values[1] ?? 0) - (values[0] ?? 0);
  const odd = values.findIndex((value, row) => row > 0 && value - (values[row - 1] ?? 0) !== step);
  if (step > 0 && odd < 0) return step;
  const row = step > 0 ? odd : 1;
  return report.at(table.spot(row, sense.at), say.indexGap(values[row] ?? 0, values[row - 1] ?? 0));
}

/** Every channel's time column must tell the same rate; a shifted start is a warning. */
function gridsAgree(grids: readonly Grid[], report: Report): boolean {
  const [first, ...others] = grids;
  if (!first) return true;
  const differing = others.find((grid) => Math.abs(grid.span - first.span) > grid.slack + first.slack);
  if (differing) {
    report.at(differing.time.sense.spot, say.timeColumnsDiffer(nameOf(differing), nameOf(first)));
    return false;
  }
  for (const grid of others) {
    const shift = (grid.start - first.start) / first.step;
    const allowed = (grid.slack + first.slack) / first.step + 1e-6;
    if (Math.abs(shift) <= allowed) continue;
    report.at(grid.time.sense.spot, say.channelSkew(nameOf(grid), nameOf(first), shift));
  }
  return true;
}

const nameOf = (grid: Grid) => columnName(grid.time.sense);

/** The rate that the file states, null when it states none, undefined with an error when it states two. */
function oneStatedRate({ stated, declaration }: RateSources, report: Report): StatedRate | null | undefined {
  const [first, ...others] = stated;
  if (!first || declaration.rateHz !== undefined) return null;
  const other = others.find((rate) => !sameRate(rate, first));
  if (!other) return first;
  report.at({ line: other.line, column: 1 }, say.ratesDiffer(first.rateHz, first.line, other.rateHz));
  return undefined;
}

function sameRate(a: StatedRate, b: StatedRate): boolean {
  const allowed = a.relativeRounding + b.relativeRounding + 1e-12;
  return Math.abs(a.rateHz - b.rateHz) <= allowed * a.rateHz;
}

function chosenRate(
  grid: Grid | null,
  stated: StatedRate | null,
  { table, declaration }: RateSources,
  report: Report,
): Sampling | null {
  const { rows } = table;
  if (declaration.rateHz !== undefined) {
    if (grid && offBy(declaration.rateHz, grid, rows) > grid.slack) {
      report.at(grid.time.sense.spot, say.declaredRateDiffers(declaration.rateHz, rateOf(grid)));
    }
    return sampling(declaration.rateHz, 'declaration', grid, rows);
  }
  if (!grid) {
    if (!stated) return report.at(topOfFile, say.rateMissing());
    return sampling(stated.rateHz, `preamble line ${stated.line}`, null, rows);
  }
  if (!stated) return sampling(rateOf(grid), 'time column', grid, rows);
  const off = offBy(stated.rateHz, grid, rows);
  if (off > grid.slack + stated.relativeRounding * grid.span) {
    return report.at({ line: stated.line, column: 1 }, say.statedRateDiffers(stated.rateHz, rateOf(grid)));
  }
  const finer = grid.rounded && off <= grid.slack;
  return finer
    ? sampling(stated.rateHz, `preamble line ${stated.line}`, grid, rows)
    : sampling(rateOf(grid), 'time column', grid, rows);
}

/** How far a rate misses the last stamp, in seconds. */
const offBy = (rateHz: number, grid: Grid, rows: number) => Math.abs((rows - 1) / rateHz - grid.span);

/** Twelve digits are finer than any clock and free of the noise of dividing. */
const rateOf = (grid: Grid) => Number((1 / grid.step).toPrecision(12));

function sampling(rateHz: number, from: string, grid: Grid | null, rows: number): Sampling {
  const distance = grid ? largestDistance(grid.time.values, 1 / rateHz) * rateHz : 0;
  // Less than this is the noise of adding decimal fractions, in records of any length.
  const largestStepError = distance < 1e-9 ? 0 : distance;
  return { rateHz, from, durationS: rows / rateHz, largestStepError, rounded: grid?.rounded ?? false };
}
