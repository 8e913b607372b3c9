import path from 'node:path';
import { stringify } from 'yaml';
import { noJournal, writeAll } from '../new-files.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import { titleSlug } from '../title-slug.ts';
import type { NewPage } from './new-arguments.ts';

/** Begins a page of the maker's own; one that exists is never written over. */
export async function beginPage({ journal: written, title }: NewPage, output: Output): Promise<number> {
  const journal = fromCaller(written);
  const file = path.join(journal, 'pages', `${titleSlug(title)}.md`);
  const failure = noJournal(journal) ?? (await writeAll([{ file, text: skeleton(title) }]));
  if (failure !== null) {
    output.notice(failure);
    return 1;
  }
  output.result(`Written:\n  ${shownPath(file)}\nNext: its summary, and what it says.`);
  return 0;
}

const skeleton = (title: string) => `---
${stringify({ title }, { lineWidth: 0 }).trimEnd()}
summary: One sentence about what a reader finds here.
# navigation: a word for it in the main navigation
# group: a heading that several pages are listed under
# order: 1
---

What it says.
`;
