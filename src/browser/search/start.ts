import { questionQuery, readQuestion } from './address.ts';
import { followArrows } from './arrow-keys.ts';
import { type Find, nothing, openIndex } from './index-reader.ts';
import { KindChoice } from './kinds.ts';
import { type SearchParts, searchParts } from './parts.ts';
import { ResultList } from './result-list.ts';
import { outcomeText } from './words.ts';

/** How long the keys must rest before a search, so that counts are not read out at every letter. */
const restMs = 250;

/** Makes the search page answer; where the index cannot be loaded, it says what to use in its place. */
export function startSearch(): void {
  const parts = searchParts();
  const { index = '', base = '/', missing = '' } = parts.form.dataset;
  const kinds = new KindChoice(parts.kinds);
  const list = new ResultList(parts.results, parts.more);
  const asked = readQuestion(location.search);
  parts.field.value ||= asked.text;
  kinds.choose(asked.kind);
  const ready = openIndex(index, base).then((find) => searching(parts, kinds, list, find));
  const sayMissing = () => {
    parts.status.textContent = missing;
  };
  const search = () => ready.then((run) => run()).catch(sayMissing);
  listen(parts, search);
  parts.more.addEventListener('click', () => list.showMore().catch(sayMissing));
  followArrows(parts.field, parts.results);
  search();
}

/** Searches once the keys rest, and at once when told to or when another kind is chosen. */
function listen({ form, field, kinds }: SearchParts, search: () => void): void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const searchAfter = (delay: number) => {
    clearTimeout(timer);
    timer = setTimeout(search, delay);
  };
  field.addEventListener('input', () => searchAfter(restMs));
  kinds.addEventListener('change', () => searchAfter(0));
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    searchAfter(0);
  });
}

/** A search for what stands in the field; of several that overlap the latest is shown. */
function searching({ field, status }: SearchParts, kinds: KindChoice, list: ResultList, find: Find) {
  let latest = 0;
  return async (): Promise<void> => {
    latest += 1;
    const mine = latest;
    const isLatest = () => mine === latest;
    const text = field.value.trim();
    const { chosen: kind, name } = kinds;
    history.replaceState(null, '', location.pathname + questionQuery({ text, kind }) + location.hash);
    const found = text === '' ? nothing : await find(text, kind);
    const counts = found.totalFilters.kind ?? {};
    const all = Object.values(counts).reduce((sum, count) => sum + count, 0);
    await list.show(found.results, isLatest);
    if (!isLatest()) return;
    kinds.show(counts, all);
    const outcome = { text, shown: found.results.length, all, kind: name };
    status.textContent = text === '' ? '' : outcomeText(outcome);
  };
}
