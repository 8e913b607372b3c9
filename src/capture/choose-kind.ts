import { kindOfColumns, missingFor } from './kind.ts';
import * as say from './messages.ts';
import { type Report, topOfFile } from './report.ts';
import { isUnnamed, type Sense } from './senses.ts';
import type { CaptureDeclaration, CaptureKind } from './types.ts';

/** The declared kind if the columns allow it, or the one that they show; null with an error that asks. */
export function chooseKind(
  senses: readonly Sense[],
  isRateStated: boolean,
  declaration: CaptureDeclaration,
  report: Report,
): CaptureKind | null {
  const hasRate = isRateStated || declaration.rateHz !== undefined;
  const spot = senses[0]?.spot ?? topOfFile;
  if (declaration.kind !== 'readings' && isNameless(senses, hasRate)) {
    return report.at(spot, say.columnsUnnamed(senses.length));
  }
  const kind = declaration.kind ?? kindOfColumns(senses, hasRate);
  if (typeof kind !== 'string') return report.at(spot, kind);
  const missing = missingFor(kind, senses);
  return missing ? report.at(spot, say.kindLacks(kind, missing)) : kind;
}

/**
 * Columns without any header are channels if there is a rate and none of them runs upward as a time axis
 * would; otherwise only a person can tell what they are.
 */
function isNameless(senses: readonly Sense[], hasRate: boolean): boolean {
  const unnamed = senses.filter(isUnnamed);
  return unnamed.length > 0 && !(hasRate && !unnamed.some(isAscending));
}

function isAscending({ values }: Sense): boolean {
  return values.length > 1 && values.every((value, row) => row === 0 || value > (values[row - 1] ?? value));
}
