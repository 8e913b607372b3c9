import { asShown } from '../compare/index.ts';
import type { Figure } from '../figures/index.ts';
import {
  anchorOf,
  figureOf,
  figureSources,
  findSource,
  type NamingContext,
} from '../journal/claims/figure-sources.ts';
import { nameable } from '../journal/claims/nameable.ts';
import { currentJournal } from '../journal/current.ts';
import type { Journal } from '../journal/types.ts';

type Known = Omit<NamingContext, 'record'>;

const known = new WeakMap<Journal, Known>();

/** What prose can name in the current journal, gathered once. */
function currentlyKnown(): Known {
  const journal = currentJournal();
  const { logs, versions, files } = journal;
  const found = known.get(journal) ?? {
    sources: figureSources(logs, versions),
    declared: nameable(logs, files),
  };
  known.set(journal, found);
  return found;
}

/** A figure named in the prose of a record, and where it is shown; null where it does not exist, which `check` refuses. */
export function figureInProse(
  id: string,
  of: string,
  record: string,
): { figure: Figure; title: string; page: string; anchor: string } | null {
  const found = findSource(of, { ...currentlyKnown(), record });
  if (!found || 'fault' in found) return null;
  const { source, part } = found;
  const named = figureOf(source, part, id);
  if ('fault' in named) return null;
  const { figure } = named.measured;
  return {
    figure: asShown(figure),
    title: source.title,
    page: source.page,
    anchor: anchorOf(source, figure),
  };
}
