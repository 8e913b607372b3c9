import type { Draw, Drawing } from '../../charts/index.ts';
import { codeVersion } from '../../journal/store/code-version.ts';
import { keepJson, keptJson } from '../../journal/store/kept-json.ts';
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
  const underWay = new Map<string, Promise<Drawing>>();
  return ({ spec, text }) => {
    const task = JSON.stringify({ spec, text });
    const key = resultKey('drawing', codeVersion(['charts'], ['vega', 'vega-lite']), task);
    const kept = underWay.get(key) ?? keptJson<Drawing>(store, key);
    onDrawing(underWay.has(key) ? 'known' : kept ? 'kept' : 'computed');
    if (kept) return Promise.resolve(kept);
    const made = pool.run('draw', task).then(async (drawing) => {
      await keepJson(store, key, drawing);
      return drawing;
    });
    underWay.set(key, made);
    return made.finally(() => underWay.delete(key));
  };
}
