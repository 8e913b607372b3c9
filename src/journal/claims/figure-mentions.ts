import { type Problem, problemAt } from '../../problem/index.ts';
import type { Prose } from '../types.ts';
import { claimMessages as messages } from './claim-messages.ts';
import { figureOf, findSource, type NamingContext } from './figure-sources.ts';

/** Checks that every figure named in a record's running text exists; one without a value is a warning. */
export function checkFigureMentions(
  { id, prose }: { id: string; prose: Prose },
  context: Omit<NamingContext, 'record'>,
): Problem[] {
  return prose.figures.flatMap(({ figure, of, place }) => {
    const found = findSource(of, { ...context, record: id });
    if (found === null) return [];
    if ('fault' in found) return [problemAt(place, found.fault)];
    const named = figureOf(found.source, found.part, figure);
    if ('fault' in named) return [problemAt(place, named.fault)];
    const { value, absent = '' } = named.measured.figure;
    return value === null ? [problemAt(place, messages.noValue(figure, absent))] : [];
  });
}
