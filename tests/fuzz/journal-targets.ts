import { cpSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { analysisCache, openJournal } from '../../src/journal/index.ts';
import { proseRenderer } from '../../src/journal/prose/render.ts';
import { hasErrors } from '../../src/problem/index.ts';
import { recordTexts } from './corpus.ts';
import { type Chance, mutated } from './mutations.ts';
import type { Target } from './target.ts';

const records = recordTexts().filter(({ file }) => file.endsWith('.md'));
const bodyOf = (text: string) => text.slice(text.indexOf('\n---', 3) + 4);
const bodies = records.map(({ text }) => bodyOf(text)).filter((body) => body.trim() !== '');

/** What stands beside the record whose prose is rendered. */
const context = {
  root: '/journal',
  base: '/',
  files: new Set(['logs/a/index.md', 'logs/a/tone.csv', 'static/plan.pdf']),
  ids: new Set(['logs/a', 'logs/a/tone', 'amplifiers/heron']),
  captures: new Set(['logs/a/tone.csv']),
};

const renderer = proseRenderer(context);

const prose: Target = {
  share: 250,
  read: (chance) => {
    const body = mutated(chance.pick(bodies).slice(0, 3000), chance);
    return async () => {
      const render = await renderer;
      const source = { file: 'logs/a/index.md', path: '/journal/logs/a/index.md', body, bodyLine: 1 };
      const { prose: made, problems } = await render(source);
      if (!hasErrors(problems) && active.test(made.html ?? ''))
        throw new Error(`The page would run code: ${made.html}`);
      return { text: body, problems, result: made };
    };
  },
};

/** Markup that runs or loads something; text about it has its less-than signs escaped. */
const active =
  /<(?:script|iframe|object|embed|form|link|meta|base|svg|style)\b|<[^>]*\s(?:on\w+|style|srcdoc)\s*=|<a [^>]*href="?\s*(?:javascript|data|vbscript):/i;

const starter = 'shared/starter';

/** A journal of its own, in which one record at a time is spoilt. */
function openedJournal() {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'quiescent-fuzz-')));
  process.on('exit', () => rmSync(folder, { recursive: true, force: true }));
  cpSync(starter, folder, { recursive: true });
  return { folder, cache: analysisCache() };
}

let journal: ReturnType<typeof openedJournal> | null = null;

/** Claims and decisions are read most, as they lead to everything else. */
function spoilt(chance: Chance, files: readonly { file: string; text: string }[]) {
  const wanted = chance.below(2) === 0 ? files.filter(({ file }) => /^(decisions|logs)/.test(file)) : files;
  const { file, text } = chance.pick(wanted);
  return { file, whole: text, text: mutated(text, chance) };
}

const starterRecords = recordTexts([starter]);

const journals: Target = {
  share: 50,
  read: (chance) => {
    journal ??= openedJournal();
    const { folder, cache } = journal;
    const { file, whole, text } = spoilt(chance, starterRecords);
    return async () => {
      writeFileSync(join(folder, file), text);
      const opened = await openJournal(folder, { cache });
      writeFileSync(join(folder, file), whole);
      const { problems, journal: resolved } = opened;
      return { text: null, problems, result: resolved?.decisions ?? null };
    };
  },
};

export const journalTargets = { prose, journals };
