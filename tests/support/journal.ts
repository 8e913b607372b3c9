import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import type { Problem } from '../../src/problem/index.ts';

/** Files of a folder by path. */
export type Files = Readonly<Record<string, string | Uint8Array>>;

/** A folder that is gone after the test. */
export function temporaryFolder(): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'quiescent-journal-')));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Writes files below a folder, by default a new one that is gone after the test; answers with the folder. */
export function writeFiles(files: Files, folder = temporaryFolder()): string {
  for (const [file, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true });
    writeFileSync(join(folder, file), content);
  }
  return folder;
}

export const settings = 'title: Bench notes\nauthor: The bench\n';

export const amplifier = `---
title: Tern
purpose: A small amplifier for the bench.
kind: tube
topology: single-ended
---
`;

export const version = `---
title: Tern 1
date: 2026-01-10
state: current
summary: The first version.
---
`;

/** A log of the amplifier `amplifiers/tern`; `keys` are lines of frontmatter from line 6 on. */
export function log(keys = '', body = ''): string {
  return `---
title: First sound
date: 2026-01-18
amplifier: amplifiers/tern
question: Does it hum?
${keys}---
${body}`;
}

/** A small whole journal without a problem, to be added to and overwritten. */
export const smallJournal: Files = {
  'journal.yaml': settings,
  'amplifiers/tern/index.md': amplifier,
  'amplifiers/tern/v1.md': version,
  'logs/first/index.md': log(),
};

/** A hundred cycles of 1 kHz, 1 V peak with 1 % second harmonic and a little noise, as time and voltage. */
export function toneCsv(channels: readonly string[] = ['speaker']): string {
  let state = 1;
  const noise = () => {
    state = (state * 48_271) % 2_147_483_647;
    return 0.0005 * (state / 2_147_483_647 - 0.5);
  };
  const row = (index: number) => {
    const phase = (2 * Math.PI * index) / 50;
    const value = () => Math.sin(phase) + 0.01 * Math.cos(2 * phase) + noise();
    return [(index * 2e-5).toFixed(5), ...channels.map(() => value().toFixed(6))].join(',');
  };
  const rows = Array.from({ length: 5000 }, (_, index) => row(index));
  return `${[`time (s),${channels.map((name) => `${name} (V)`).join(',')}`, ...rows].join('\n')}\n`;
}

/** A problem as a reader sees it: place, severity and rule, then message and hint on lines of their own. */
export function problemText({ file, line, column, severity, rule, message, hint }: Problem): string {
  const head = `${file}:${line}:${column} ${severity} ${rule}`;
  return [head, `  ${message}`, ...(hint === undefined ? [] : [`  ${hint}`])].join('\n');
}

/** Every problem of a journal made of the small one and these files, as one text. */
export async function problemsOf(files: Files): Promise<string> {
  const { problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  return `\n${problems.map(problemText).join('\n')}\n`;
}

/** The log `logs/first` of a journal made of the small one, this body and these files, with every problem. */
export async function proseOf(body: string, files: Files = {}, base = '/') {
  const folder = writeFiles({ ...smallJournal, 'logs/first/index.md': log('', body), ...files });
  const { journal, problems } = await openJournal(folder, { base });
  const first = journal?.logs.find(({ id }) => id === 'logs/first');
  return { html: first?.prose.html ?? null, problems: `\n${problems.map(problemText).join('\n')}\n` };
}

/** The frontmatter of a version with these lines from line 6 on. */
export const versionWith = (keys: string) => version.replace(/---\n$/, `${keys}---\n`);
