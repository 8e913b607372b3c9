import { readFileSync } from 'node:fs';
import path from 'node:path';
import { workFolder } from '../publishing/work-folder.ts';
import { framed, unframed } from './framed.ts';
import { writeWhole } from './write-whole.ts';

/**
 * Results kept on disk by a key that says everything they depend on (`resultKey`). An entry that is missing,
 * cut short, damaged or foreign is absent, so that the folder can be deleted at any time; two processes can use it
 * at once, as entries appear whole or not at all.
 */
export interface ResultStore {
  readonly folder: string;
  /** The bytes kept under a key; null where there are none. */
  get(key: string): Uint8Array | null;
  /** Keeps bytes; a folder that cannot be written to keeps nothing and fails nothing. */
  put(key: string, bytes: Uint8Array): Promise<void>;
  /** Keys that were read or written since the store was opened. */
  readonly used: ReadonlySet<string>;
}

/** The store of one journal, in its work folder. */
export function openStore(journal: { folder: string }): ResultStore {
  const folder = path.join(workFolder(journal), 'results');
  const used = new Set<string>();
  return {
    folder,
    used,
    get(key) {
      const content = read(entryPath(folder, key));
      if (content !== null) used.add(key);
      return content;
    },
    async put(key, bytes) {
      used.add(key);
      await writeWhole(entryPath(folder, key), framed(bytes)).catch(() => undefined);
    },
  };
}

/** Where an entry stands: in one of 256 folders by the beginning of its key. */
export const entryPath = (folder: string, key: string): string =>
  path.join(folder, key.slice(0, 2), key.slice(2));

function read(file: string): Uint8Array | null {
  try {
    return unframed(readFileSync(file));
  } catch {
    return null;
  }
}
