import { fileURLToPath } from 'node:url';
import type { Loader, LoaderContext } from 'astro/loaders';
import { currentJournal } from '../journal/current.ts';
import { pathFromRoot, setSiteRoot, writtenRecords } from './record-entry.ts';

/**
 * Tells Astro's content store which records are compiled as MDX and which pictures the others show. Pages take
 * the text itself from the current journal, so that the store changes only with those.
 */
export function recordLoader(): Loader {
  return {
    name: 'quiescent-records',
    async load({ store, config, generateDigest }) {
      setSiteRoot(fileURLToPath(config.root));
      const journal = currentJournal();
      const entries = writtenRecords(journal).map(({ id, file, prose }) =>
        contentEntry({ id, filePath: pathFromRoot(journal, file), ...prose }, generateDigest),
      );
      const kept = new Set(entries.map(({ id }) => id));
      for (const id of store.keys()) if (!kept.has(id)) store.delete(id);
      for (const entry of entries) store.set(entry);
    },
  };
}

interface Stated {
  id: string;
  filePath: string;
  html: string | null;
  imagePaths: string[];
}

function contentEntry(
  { id, filePath, html, imagePaths }: Stated,
  digestOf: LoaderContext['generateDigest'],
): Parameters<LoaderContext['store']['set']>[0] {
  const deferredRender = html === null;
  const digest = digestOf({ filePath, imagePaths, deferredRender });
  return deferredRender
    ? { id, data: {}, filePath, digest, deferredRender }
    : { id, data: {}, filePath, digest, assetImports: imagePaths };
}
