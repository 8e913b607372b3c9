import { searchKinds } from '../../site/search-kinds.ts';
import type { FoundPage, FoundSection } from './index-reader.ts';

const mostSections = 3;

/** The entry of a page in the list of results. */
export function resultItem({ url, excerpt, meta, sub_results }: FoundPage): HTMLLIElement {
  const item = document.createElement('li');
  const heading = document.createElement('h2');
  heading.append(link(meta.title, url));
  const sections = sub_results.filter((section) => section.url !== url).slice(0, mostSections);
  item.append(
    paragraph('kicker', [kindName(meta.kind), meta.context].filter(Boolean).join(' · ')),
    heading,
    paragraph('excerpt', ...marked(excerpt)),
    ...(sections.length > 0 ? [paragraph('found-in', 'In: ', ...listed(sections))] : []),
  );
  return item;
}

const kindName = (kind: string) => Object.entries(searchKinds).find(([id]) => id === kind)?.[1].one ?? kind;

function link(text: string, url: string): HTMLAnchorElement {
  const anchor = document.createElement('a');
  anchor.href = url;
  anchor.textContent = text;
  return anchor;
}

function paragraph(name: string, ...content: (string | Node)[]): HTMLParagraphElement {
  const made = document.createElement('p');
  made.className = name;
  made.append(...content);
  return made;
}

const listed = (sections: readonly FoundSection[]) =>
  sections.flatMap(({ title, url }, at) => (at === 0 ? [link(title, url)] : [', ', link(title, url)]));

/** The words of an excerpt, with nothing kept of its markup but which of them were found. */
function marked(excerpt: string): (string | Node)[] {
  const { body } = new DOMParser().parseFromString(excerpt, 'text/html');
  return [...body.childNodes].map((node) => {
    const text = node.textContent ?? '';
    if (node.nodeName !== 'MARK') return text;
    const mark = document.createElement('mark');
    mark.textContent = text;
    return mark;
  });
}
