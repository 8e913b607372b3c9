import { readdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { buffer } from 'node:stream/consumers';
import { problemAt } from '../problem/index.ts';
import type { Inspection } from './inspect-document.ts';
import { type InspectionSettings, inspectBytes, inspectFile, unread } from './inspection.ts';
import { fromCaller } from './paths.ts';

/** A capture that has been inspected, and the folder that its name is relative to. */
export interface Inspected {
  folder: string;
  inspection: Inspection;
}

/** Word of the command line that stands for standard input. */
const standardInput = '-';

/** What captures are usually called; a file named by itself may be called anything. */
const captureName = /\.(csv|tsv|txt)$/i;

/** Inspects what the words of a command line name: files, folders with all captures below them, standard input. */
export async function inspectAll(
  words: readonly string[],
  settings: InspectionSettings,
): Promise<Inspected[]> {
  const inspected: Inspected[] = [];
  for (const word of words) inspected.push(...(await inspectNamed(word, settings)));
  return inspected;
}

async function inspectNamed(word: string, settings: InspectionSettings): Promise<Inspected[]> {
  if (word === standardInput) {
    const bytes = await buffer(process.stdin);
    return [{ folder: process.cwd(), inspection: inspectBytes(bytes, 'standard input', settings) }];
  }
  const absolute = fromCaller(word);
  const info = await stat(absolute).catch(() => null);
  if (info?.isDirectory()) return inspectFolder(absolute, settings);
  return [{ folder: path.dirname(absolute), inspection: await inspectFile(absolute, settings) }];
}

async function inspectFolder(folder: string, settings: InspectionSettings): Promise<Inspected[]> {
  const files = (await readdir(folder, { recursive: true }))
    .filter((file) => captureName.test(file) && !file.split(path.sep).some(isHidden))
    .sort();
  if (files.length === 0) return [{ folder: path.dirname(folder), inspection: withoutCaptures(folder) }];
  const inspected: Inspected[] = [];
  for (const name of files) {
    const inspection = await inspectFile(path.join(folder, name), settings);
    const file = name.replaceAll(path.sep, '/');
    const problems = inspection.problems.map((problem) => ({ ...problem, file }));
    inspected.push({ folder, inspection: { ...inspection, file, problems } });
  }
  return inspected;
}

const isHidden = (name: string) => name.startsWith('.') || name === 'node_modules';

function withoutCaptures(folder: string): Inspection {
  const place = { file: path.basename(folder), line: 1, column: 1 };
  return unread(
    problemAt(place, {
      rule: 'no-captures',
      message: 'The folder holds no capture: no file in it or below it ends in .csv, .tsv or .txt.',
      hint: 'Name the file itself if it is called otherwise.',
    }),
  );
}
