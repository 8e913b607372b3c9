import { createHash, randomBytes, randomInt } from 'node:crypto';
import { existsSync } from 'node:fs';
import { mkdir, readdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { reasonOf } from '../../journal/index.ts';
import { keyText, type SessionKey, trialSheet } from '../../listening/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import { listeningSkeleton } from '../listening-skeleton.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import type { NewSession } from './new-arguments.ts';

/**
 * Begins a listening session: draws the order of its trials, writes key file and trial sheet into a folder of their own,
 * and a record that holds the key's SHA-256 into the journal. A file that exists is never written over.
 */
export async function beginSession(asked: NewSession, output: Output): Promise<number> {
  const journal = fromCaller(asked.journal);
  if (!existsSync(path.join(journal, 'journal.yaml'))) {
    output.notice(`${shownPath(journal)} is no journal: it has no journal.yaml.`);
    return 1;
  }
  const files = await filesOf(asked, journal, fromCaller(asked.sealed));
  const taken = files.find(({ file }) => existsSync(file));
  if (taken) {
    output.notice(`${shownPath(taken.file)} exists and is not written over. Nothing was written.`);
    return 1;
  }
  for (const { file, text } of files) {
    const failure = await writeNew(file, text);
    if (failure !== null) {
      output.notice(`${shownPath(file)} cannot be written: ${failure}`);
      return 1;
    }
  }
  output.result(reportOf(asked, files));
  return 0;
}

interface NewFile {
  file: string;
  text: string;
  is: string;
}

async function filesOf(asked: NewSession, journal: string, sealed: string): Promise<NewFile[]> {
  const { task, alternatives } = asked;
  const today = dateOf(new Date());
  const date = /^\d{4}-\d{2}-\d{2}(?=-)/.exec(asked.name)?.[0];
  const name = date ? asked.name : `${today}-${asked.name}`;
  const key: SessionKey = {
    ...{ session: `listening/${name}`, task, salt: randomBytes(16).toString('hex') },
    order: Array.from({ length: asked.trials }, () => alternatives[randomInt(2)] ?? alternatives[0]),
  };
  const text = keyText(key);
  const sha256 = createHash('sha256').update(text).digest('hex');
  const amplifier = await firstAmplifier(journal);
  return [
    {
      file: path.join(sealed, `${name}.key.txt`),
      text,
      is: 'the key file; keep it unopened until the last trial',
    },
    {
      file: path.join(sealed, `${name}.sheet.txt`),
      text: trialSheet({ key, alternatives, sha256, notice: safetyNotice }),
      is: 'the trial sheet for the helper at the switch, to be printed',
    },
    {
      file: path.join(journal, 'listening', `${name}.md`),
      text: listeningSkeleton({ key, date: date ?? today, amplifier, alternatives, sha256 }),
      is: 'the record, with the hash of the key',
    },
  ];
}

/** The calendar date where the computer stands. */
function dateOf(now: Date): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** Id of the journal's first amplifier, for the record to begin with. */
async function firstAmplifier(journal: string): Promise<string> {
  const folders = await readdir(path.join(journal, 'amplifiers')).catch((): string[] => []);
  const isOne = (folder: string) => existsSync(path.join(journal, 'amplifiers', folder, 'index.md'));
  return `amplifiers/${folders.sort().find(isOne) ?? 'name-of-the-amplifier'}`;
}

/** Writes a file that does not exist yet; the reason where that fails. */
async function writeNew(file: string, text: string): Promise<string | null> {
  try {
    await mkdir(path.dirname(file), { recursive: true });
    await writeFile(file, text, { flag: 'wx' });
    return null;
  } catch (error) {
    return reasonOf(error);
  }
}

function reportOf({ trials, name }: NewSession, files: readonly NewFile[]): string {
  return [
    `${trials} trials of ${name} are drawn. Written:`,
    ...files.flatMap(({ file, is }) => [`  ${shownPath(file)}`, `      ${is}`]),
    'After the last trial, put the key file beside the record; check then verifies it and the trials.',
  ].join('\n');
}
