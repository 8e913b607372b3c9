import { type Cell, type Delimiter, splitCells } from './cells.ts';
import { type Dialect, type Layout, layoutOf, patternOf } from './layout.ts';
import { firstLines, spreadLines } from './lines.ts';
import * as say from './messages.ts';
import type { DecimalMark } from './numbers.ts';
import { readNumber } from './numbers.ts';
import { type Report, type Spot, topOfFile } from './report.ts';
import type { CaptureDeclaration } from './types.ts';

/** One way of reading the sampled lines, and the lines that it explains as rows of numbers. */
interface Fit {
  dialect: Dialect;
  pattern: string;
  explained: ReadonlyMap<number, readonly Cell[]>;
}

const sampledLines = 64;

/**
 * Finds how cells and numbers are written by trying every dialect on sampled lines. The header decides
 * between those that explain the lines about as well; without it the one that explains more wins, and two
 * that explain the same lines as other numbers are an error that asks.
 */
export function findLayout(text: string, declaration: CaptureDeclaration, report: Report): Layout | null {
  const sample = sampleOf(text, declaration.skip ?? 0);
  const all = rankedFits(sample, dialectsFor(sample, declaration));
  const fits = all.filter((fit) => fit.pattern.length >= declaredWidth(declaration));
  const best = fits[0] ?? all[0];
  if (!best) return report.at(topOfFile, say.noNumbers());
  const close = [best, ...fits.slice(1).filter((fit) => isClose(fit, best))];
  const rivals = close.filter((fit) => fit === best || isRival(fit, best));
  const chosen = decidedByHeader(close, sample) ?? (rivals.length === 1 ? best : null);
  if (!chosen) return report.at(spotOf(best), say.readingUnclear(rivals.map(exampleOf)));
  const grouped = declaration.decimalMark ? null : groupedDigits(chosen);
  if (grouped) return report.at(spotOf(chosen), say.groupedDigits(grouped));
  return layoutOf(chosen.dialect, chosen.pattern);
}

/** The highest position that the declaration gives a column. */
function declaredWidth({ columns = {} }: CaptureDeclaration): number {
  const positions = Object.values(columns).map(({ column }) => (typeof column === 'number' ? column : 1));
  return Math.max(1, ...positions);
}

function sampleOf(text: string, skip: number): string[] {
  const first = firstLines(text, skip + sampledLines);
  const last = first.at(-1);
  const rest = last ? spreadLines(text, last.start + last.text.length, sampledLines) : [];
  return [...first.map((line, at) => (at < skip ? '' : line.text)), ...rest];
}

/**
 * Only marks that occur are tried. A comma may also be the decimal mark of a single column; between cells it
 * can be both only where quotes tell the two apart.
 */
function dialectsFor(sample: readonly string[], declared: CaptureDeclaration): Dialect[] {
  const all = sample.join('\n');
  const present = (['\t', ';', ',', ' '] as const).filter((mark) => all.includes(mark));
  const single = present.includes(',') ? ([';'] as const) : ([',', ';'] as const);
  const delimiters: readonly Delimiter[] = declared.delimiter
    ? [declared.delimiter]
    : [...new Set<Delimiter>([...present, ...single])];
  const marks: readonly DecimalMark[] = declared.decimalMark
    ? [declared.decimalMark]
    : all.includes(',')
      ? ['.', ',']
      : ['.'];
  return delimiters
    .flatMap((delimiter) => marks.map((decimalMark) => ({ delimiter, decimalMark })))
    .filter(({ delimiter, decimalMark }) => delimiter !== decimalMark || all.includes('"'));
}

/** Fits of plain rows of numbers before fits of rows with text among them, then by lines explained. */
function rankedFits(sample: readonly string[], dialects: readonly Dialect[]): Fit[] {
  const fits = dialects.flatMap((dialect) => fitsOf(sample, dialect));
  const plain = fits.filter((fit) => /^[ne]+$/.test(fit.pattern));
  const pool = plain.some(isStrong) ? plain : fits;
  return pool.sort((a, b) => b.explained.size - a.explained.size);
}

/** One lone number on one or two lines is more likely a count in a preamble than a table. */
const isStrong = (fit: Fit) => fit.explained.size >= 3 || fit.pattern.replaceAll('e', '').length >= 2;

/** The most frequent pattern with numbers only, and the most frequent with text among them. */
function fitsOf(sample: readonly string[], dialect: Dialect): Fit[] {
  const byPattern = new Map<string, Map<number, readonly Cell[]>>();
  sample.forEach((line, at) => {
    const cells = splitCells(line, dialect.delimiter);
    const pattern = patternOf(cells, dialect.decimalMark);
    if (!pattern.includes('n')) return;
    const lines = byPattern.get(pattern) ?? new Map<number, readonly Cell[]>();
    byPattern.set(pattern, lines.set(at, cells));
  });
  const fits = [...byPattern].map(([pattern, explained]) => ({ dialect, pattern, explained }));
  return [mostFrequent(fits, false), mostFrequent(fits, true)].flatMap((fit) => fit ?? []);
}

function mostFrequent(fits: readonly Fit[], withText: boolean): Fit | undefined {
  return fits
    .filter((fit) => fit.pattern.includes('t') === withText)
    .sort((a, b) => b.explained.size - a.explained.size)[0];
}

/** Another dialect that explains at least half as many lines, with other numbers. */
function isClose(fit: Fit, best: Fit): boolean {
  if (fit.dialect === best.dialect || sameNumbers(fit, best)) return false;
  return fit.explained.size * 2 >= best.explained.size;
}

/** A rival explains a line that the best does not, or just as many. */
function isRival(fit: Fit, best: Fit): boolean {
  const explainsMore = [...fit.explained.keys()].some((line) => !best.explained.has(line));
  return explainsMore || fit.explained.size === best.explained.size;
}

const sameNumbers = (a: Fit, b: Fit) => numbersOf(a) === numbersOf(b);

function numbersOf(fit: Fit): string {
  const rows = [...fit.explained].slice(0, 20).map(([line, cells]) => [line, ...rowNumbers(fit, cells)]);
  return JSON.stringify(rows);
}

const rowNumbers = (fit: Fit, cells: readonly Cell[]) =>
  layoutOf(fit.dialect, fit.pattern).numeric.map((at) =>
    readNumber(cells[at]?.text ?? '', fit.dialect.decimalMark),
  );

/** The one reading under which the line of text above the numbers has a name for each column, if there is one. */
function decidedByHeader(fits: readonly Fit[], sample: readonly string[]): Fit | null {
  const named = fits.filter((fit) => hasMatchingHeader(fit, sample));
  const first = named[0];
  return first && named.every((fit) => sameNumbers(fit, first)) ? first : null;
}

function hasMatchingHeader(fit: Fit, sample: readonly string[]): boolean {
  const { delimiter, decimalMark } = fit.dialect;
  const patterns = sample
    .slice(0, Math.min(...fit.explained.keys()))
    .map((line) => ({ line, names: patternOf(splitCells(line, delimiter), decimalMark) }));
  const above = patterns.findLast(({ names }) => names !== '' && !names.includes('n'));
  if (above?.names !== 't'.repeat(fit.pattern.length)) return false;
  return fit.pattern.length > 1 || !/[,;\t]/.test(above.line);
}

/** A cell such as 1,234 when every number with a comma looks like grouped thousands. */
function groupedDigits(fit: Fit): string | null {
  if (fit.dialect.decimalMark !== ',') return null;
  const commas = [...fit.explained.values()]
    .flat()
    .map((cell) => cell.text)
    .filter((cell) => /\d,\d/.test(cell));
  return commas.every((cell) => /^[+-]?[1-9]\d{0,2},\d{3}$/.test(cell)) ? (commas[0] ?? null) : null;
}

const firstExplained = (fit: Fit) => [...fit.explained][0];

/** The line of the first row, if it is among the first lines, which are sampled without gaps. */
function spotOf(fit: Fit): Spot {
  const at = firstExplained(fit)?.[0] ?? 0;
  return at < sampledLines ? { line: at + 1, column: 1 } : topOfFile;
}

function exampleOf(fit: Fit): say.ReadingExample {
  const cells = firstExplained(fit)?.[1] ?? [];
  return { ...fit.dialect, numbers: rowNumbers(fit, cells) };
}
