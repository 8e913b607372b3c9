import { randomBytes, randomInt } from 'node:crypto';
import path from 'node:path';
import { sha256Of } from '../../journal/analysis/sha256.ts';
import { keyText, type SessionKey, trialSheet } from '../../listening/index.ts';
import { safetyNotice } from '../../site/safety.ts';
import { listeningSkeleton } from '../listening-skeleton.ts';
import { dateOf, firstAmplifier, type NewFile, noJournal, writeAll } from '../new-files.ts';
import type { Output } from '../output.ts';
import { fromCaller, shownPath } from '../paths.ts';
import type { NewSession } from './new-arguments.ts';

/**
 * Begins a listening session: draws the order of its trials, writes key file and trial sheet into a folder of their own,
 * and a record that holds the key's SHA-256 into the journal. A file that exists is never written over.
 */
export async function beginSession(asked: NewSession, output: Output): Promise<number> {
  const journal = fromCaller(asked.journal);
  const files = await filesOf(asked, journal, fromCaller(asked.sealed));
  const failure = noJournal(journal) ?? (await writeAll(files));
  if (failure !== null) {
    output.notice(failure);
    return 1;
  }
  output.result(reportOf(asked, files));
  return 0;
}

interface SessionFile extends NewFile {
  is: string;
}

async function filesOf(asked: NewSession, journal: string, sealed: string): Promise<SessionFile[]> {
  const { task, alternatives } = asked;
  const today = dateOf(new Date());
  const date = /^\d{4}-\d{2}-\d{2}(?=-)/.exec(asked.name)?.[0];
  const name = date ? asked.name : `${today}-${asked.name}`;
  const key: SessionKey = {
    ...{ session: `listening/${name}`, task, salt: randomBytes(16).toString('hex') },
    order: Array.from({ length: asked.trials }, () => alternatives[randomInt(2)] ?? alternatives[0]),
  };
  const text = keyText(key);
  const sha256 = sha256Of(text);
  const amplifier = await firstAmplifier(journal);
  return [
    {
      file: path.join(sealed, `${name}.key.txt`),
      text,
      is: 'the key file; keep it unopened until the last trial',
      apart: true,
    },
    {
      file: path.join(sealed, `${name}.sheet.txt`),
      text: trialSheet({ key, alternatives, sha256, notice: safetyNotice }),
      is: 'the trial sheet for the helper at the switch, to be printed',
      apart: true,
    },
    {
      file: path.join(journal, 'listening', `${name}.md`),
      text: listeningSkeleton({ key, date: date ?? today, amplifier, alternatives, sha256 }),
      is: 'the record, with the hash of the key',
      apart: false,
    },
  ];
}

function reportOf({ trials, name }: NewSession, files: readonly SessionFile[]): string {
  return [
    `${trials} trials of ${name} are drawn. Written:`,
    ...files.flatMap(({ file, is }) => [`  ${shownPath(file)}`, `      ${is}`]),
    'After the last trial, put the key file beside the record; check then verifies it and the trials.',
  ].join('\n');
}
