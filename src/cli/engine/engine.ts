import type { Draw } from '../../charts/index.ts';
import {
  type AnalysisCache,
  analysisCache,
  type ResultOrigin,
} from '../../journal/analysis/analysis-cache.ts';
import { openStore, type ResultStore } from '../../journal/store/result-store.ts';
import { chartDrawer, type DrawingOrigin } from './chart-drawer.ts';
import { perform } from './jobs.ts';
import { workerPool } from './pool.ts';

/** Is told what the engine does, as it does it. */
export interface EngineListener {
  onExpected?: (captures: number) => void;
  onResult?: (origin: ResultOrigin) => void;
  onDrawing?: (origin: DrawingOrigin) => void;
}

/** What a journal is analysed and drawn with: results kept on disk, and threads for what is not there. */
export interface Engine {
  store: ResultStore;
  cache: AnalysisCache;
  draw: Draw;
  /** Ends the threads. */
  close(): Promise<void>;
}

/** So many captures are analysed sooner here than a thread takes to begin. */
const fewest = 8;

export interface EngineOptions extends EngineListener {
  /** How many threads at most; as many as the machine runs at once unless stated. */
  threads?: number;
}

/** Begins the engine of the journal in a folder; threads begin with the first work for them. */
export function startEngine(folder: string, { threads, ...listener }: EngineOptions = {}): Engine {
  const store = openStore({ folder });
  const pool = workerPool(threads);
  let analysed = 0;
  const { onDrawing = () => undefined, ...listening } = listener;
  return {
    store,
    cache: analysisCache({
      ...listening,
      store,
      compute(bytes, request) {
        const task = { bytes, request };
        return analysed++ < fewest ? perform('analyse', task) : pool.run('analyse', task);
      },
    }),
    draw: chartDrawer(store, pool, onDrawing),
    close: () => pool.close(),
  };
}
