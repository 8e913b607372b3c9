import { nearestNames } from '../problem/index.ts';
import { parseHeader } from './header-text.ts';
import type { Heading } from './heading.ts';
import type { Layout } from './layout.ts';
import * as say from './messages.ts';
import type { Report, Spot } from './report.ts';
import type { CaptureDeclaration, ColumnDeclaration } from './types.ts';

/** A declared column with the name it is to have. */
export interface Declared extends ColumnDeclaration {
  name: string;
}

/**
 * Finds the column that each declaration means, by header or by position counted from 1; the result is keyed
 * by position counted from 0. Null when a column is not there, not one, or declared twice.
 */
export function declaredColumns(
  declaration: CaptureDeclaration,
  heading: Heading,
  layout: Layout,
  report: Report,
): Map<number, Declared> | null {
  const before = report.problems.length;
  const found = new Map<number, Declared>();
  for (const [name, column] of Object.entries(declaration.columns ?? {})) {
    const at = positionOf(column.column, heading, layout, report);
    const earlier = at === null ? undefined : found.get(at);
    if (earlier) report.at(headingSpot(heading), say.declaredTwice(earlier.name, name, column.column));
    else if (at !== null) found.set(at, { ...column, name });
  }
  return report.problems.length === before ? found : null;
}

const headingSpot = (heading: Heading): Spot => ({ line: heading.names?.line ?? 1, column: 1 });

function positionOf(
  wanted: string | number,
  heading: Heading,
  layout: Layout,
  report: Report,
): number | null {
  if (typeof wanted === 'number') return numberColumn(wanted - 1, wanted, heading, layout, report);
  const headers = (heading.names?.cells ?? []).map((cell) => cell.text);
  const matches = matching(headers, wanted);
  if (matches.length > 1) return report.at(headingSpot(heading), say.columnUnclear(wanted, matches.length));
  const at = matches[0];
  if (at !== undefined) return numberColumn(at, wanted, heading, layout, report);
  const near = nearestNames(wanted, headers);
  return report.at(headingSpot(heading), say.columnUnknown(wanted, near.length > 0 ? near : headers));
}

/** Exact headers first, then without regard to case, then labels without their units. */
function matching(headers: readonly string[], wanted: string): number[] {
  const equal = [
    (header: string) => header === wanted,
    (header: string) => header.toLowerCase() === wanted.toLowerCase(),
    (header: string) => parseHeader(header).label.toLowerCase() === wanted.toLowerCase(),
  ];
  for (const isEqual of equal) {
    const found = headers.flatMap((header, at) => (header !== '' && isEqual(header) ? [at] : []));
    if (found.length > 0) return found;
  }
  return [];
}

function numberColumn(
  at: number,
  wanted: string | number,
  heading: Heading,
  layout: Layout,
  report: Report,
): number | null {
  if (layout.numeric.includes(at)) return at;
  const positions = layout.numeric.map((position) => position + 1);
  return report.at(headingSpot(heading), say.notANumberColumn(wanted, positions));
}
