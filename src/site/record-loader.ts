import path from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Loader, LoaderContext } from 'astro/loaders';
import { currentJournal } from '../journal/current.ts';
import type {
  Amplifier,
  Comparison,
  Decision,
  Journal,
  ListeningSession,
  Log,
  Part,
  Unit,
  Version,
} from '../journal/types.ts';

type Entry = Amplifier | Version | Unit | Log | Part | Decision | ListeningSession | Comparison;

/**
 * Hands the records of the current journal to Astro's content store: Markdown already rendered, MDX to be
 * compiled. The store sees only what changed, by a digest of everything the entry depends on.
 */
export function recordLoader(): Loader {
  return {
    name: 'quiescent-records',
    async load(context) {
      const journal = currentJournal();
      const entries: Entry[] = [
        ...journal.amplifiers,
        ...journal.versions,
        ...journal.units,
        ...journal.logs,
        ...journal.parts,
        ...journal.decisions,
        ...journal.listening,
        ...journal.comparisons,
      ];
      const kept = new Set(entries.map(({ id }) => id));
      for (const id of context.store.keys()) if (!kept.has(id)) context.store.delete(id);
      for (const entry of entries) store(entry, journal, context);
    },
  };
}

function store(
  entry: Entry,
  journal: Journal,
  { store: entries, generateDigest, config }: LoaderContext,
): void {
  const { id, file, prose } = entry;
  const absolute = path.join(journal.folder, file);
  const filePath = path.relative(fileURLToPath(config.root), absolute).replaceAll(path.sep, '/');
  const digest = generateDigest({ absolute, settings: journal.settings, ...contentOf(entry) });
  const common = { id, data: {}, body: prose.body, filePath, digest };
  if (prose.html === null) {
    entries.set({ ...common, deferredRender: true });
    return;
  }
  const { html, headings, imagePaths } = prose;
  entries.set({
    ...common,
    rendered: { html, metadata: { headings, imagePaths } },
    assetImports: imagePaths,
  });
}

/** Everything of the journal that an entry's own page shows. */
function contentOf(entry: Entry): Record<string, unknown> {
  const { data, prose } = entry;
  const captures = 'captures' in entry ? entry.captures.map(({ sha256 }) => sha256) : [];
  return { data, body: prose.body, html: prose.html, captures };
}
