import type { Draw, Drawing } from '../../charts/index.ts';
import { codeVersion } from '../../journal/store/code-version.ts';
import { resultKey } from '../../journal/store/result-key.ts';
import type { ResultStore } from '../../journal/store/result-store.ts';
import type { WorkerPool } from './pool.ts';

/** Where a drawing came from: made now, kept on disk, or under way for somebody else. */
export type DrawingOrigin = 'computed' | 'kept' | 'known';

/** Draws charts in other threads and keeps each drawing by all that is in it. */
export function chartDrawer(
  store: ResultStore,
  pool: WorkerPool,
  onDrawing: (origin: DrawingOrigin) => void,
): Draw {
  const version = codeVersion(['charts'], ['vega', 'vega-lite']);
  const underWay = new Map<string, Promise<Drawing>>();
  return ({ spec, text }) => {
    const task = JSON.stringify({ spec, text });
    const key = resultKey('drawing', version, task);
    const kept = underWay.get(key) ?? keptDrawing(store, key);
    onDrawing(underWay.has(key) ? 'known' : kept ? 'kept' : 'computed');
    if (kept) return Promise.resolve(kept);
    const made = pool.run('draw', task).then(async (drawing) => {
      await store.put(key, Buffer.from(JSON.stringify(drawing)));
      return drawing;
    });
    underWay.set(key, made);
    return made.finally(() => underWay.delete(key));
  };
}

function keptDrawing(store: ResultStore, key: string): Drawing | null {
  const bytes = store.get(key);
  return bytes && JSON.parse(Buffer.from(bytes).toString('utf8'));
}
