import { printNumber, quantityText } from '../../quantity/index.ts';
import { definitionOf } from '../registry.ts';
import type { DeclaredRepeatability } from './declared-repeatability.ts';

/** A declared repeatability in one sentence: figures, size, and what it rests on. */
export function declaredText({ figures, stated, size, captures, from }: DeclaredRepeatability): string {
  const named = figures.map((id) =>
    id === 'harmonics' ? 'single harmonics' : (definitionOf(id)?.name ?? id),
  );
  const amount =
    size.unit === '1'
      ? `${printNumber(100 * size.value, 2)}\u00a0% of the value`
      : quantityText(size.value, size.unit, 2);
  const what =
    stated === 'standard deviation' ? `standard deviation of ${amount}` : `95 % interval of ± ${amount}`;
  return `${named.join(', ')}: ${what} for one capture, found from ${captures} captures (${from}).`;
}

/** What is said beside judgements that rest on such a declaration. */
export const declaredNote =
  'Declared from earlier captures and not found in these, so that differences judged by it hold as far as the set-up scatters as it did then.';
