import { mkdir, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import { amplifierFiles } from './amplifier.ts';
import { capturesOf } from './captures.ts';
import { chanceOf } from './chance.ts';
import { logText } from './log.ts';
import { pictureBytes } from './picture.ts';
import { logsPerAmplifier, placeOf } from './plan.ts';

export interface SyntheticJournal {
  /** At least one; each twentieth begins another amplifier. */
  logs: number;
  seed: number;
}

const settings = `title: Synthetic bench notes
tagline: Invented from beginning to end, to see how a large journal is built.
author: Nobody
invented: true
wording: tube
mains: 50 Hz
`;

/** Distinct from the ordinals of logs, so that an amplifier and a log share no numbers. */
const amplifierOrdinal = (group: number) => -1 - group;

/**
 * Writes an invented journal below a folder: for each log two waveform captures of two channels, two sweeps, a picture
 * and prose with maths; for each whole twenty of them an amplifier of two versions, a part, a decision and a comparison.
 * The same seed gives the same bytes, and no two captures are alike.
 */
export async function writeSyntheticJournal(folder: string, { logs, seed }: SyntheticJournal): Promise<void> {
  await write(folder, 'journal.yaml', settings);
  for (let group = 0; group * logsPerAmplifier < logs; group++) {
    const isWhole = (group + 1) * logsPerAmplifier <= logs;
    const files = Object.entries(amplifierFiles(group, chanceOf(seed, amplifierOrdinal(group))));
    for (const [file, text] of files)
      if (isWhole || !/^(decisions|comparisons)\//.test(file)) await write(folder, file, text);
  }
  for (let ordinal = 0; ordinal < logs; ordinal++) await writeLog(folder, { ordinal, seed });
}

async function writeLog(folder: string, { ordinal, seed }: { ordinal: number; seed: number }): Promise<void> {
  const place = placeOf(ordinal);
  const chance = chanceOf(seed, ordinal);
  await write(folder, `${place.id}/index.md`, logText(place, chance));
  await write(folder, `${place.id}/bench.jpg`, await pictureBytes(chance));
  for (const { name, bytes } of capturesOf(chance)) await write(folder, `${place.id}/${name}`, bytes);
}

async function write(folder: string, file: string, content: string | Uint8Array): Promise<void> {
  const target = join(folder, file);
  await mkdir(dirname(target), { recursive: true });
  await writeFile(target, content);
}
