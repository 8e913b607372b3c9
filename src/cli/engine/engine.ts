import type { Draw } from '../../charts/index.ts';
import {
  type AnalysisCache,
  analysisCache,
  type ResultOrigin,
} from '../../journal/analysis/analysis-cache.ts';
import { openStore, type ResultStore } from '../../journal/store/result-store.ts';
import type { SiteResults } from '../../site/site-results.ts';
import { chartDrawer, type DrawingOrigin } from './chart-drawer.ts';
import { perform } from './jobs.ts';
import { keptSiteResults } from './kept-site-results.ts';
import { workerPool } from './pool.ts';

/** Is told what the engine does, as it does it. */
export interface EngineListener {
  onExpected?: (captures: number) => void;
  onResult?: (origin: ResultOrigin) => void;
  onDrawing?: (origin: DrawingOrigin) => void;
  onSiteResult?: OnResult;
  onText?: OnResult;
}

/** Is told of each result whether it was kept or has been made now. */
type OnResult = (origin: 'kept' | 'computed') => void;

/** What a journal is analysed and drawn with: results kept on disk, and threads for what is not there. */
export interface Engine {
  store: ResultStore;
  /** What a journal is opened with. */
  opening: { cache: AnalysisCache; store: ResultStore; onText: OnResult };
  draw: Draw;
  /** Charts and curves of captures as pages show them. */
  results: SiteResults;
  /** Waits for what is being kept, and ends the threads. */
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
  const { onDrawing = () => undefined, onSiteResult = () => undefined, ...others } = listener;
  const { onText = () => undefined, ...listening } = others;
  const results = keptSiteResults(store, onSiteResult);
  const cache = analysisCache({
    ...listening,
    store,
    compute(bytes, request) {
      const task = { bytes, request };
      return analysed++ < fewest ? perform('analyse', task) : pool.run('analyse', task);
    },
  });
  return {
    store,
    opening: { cache, store, onText },
    draw: chartDrawer(store, pool, onDrawing),
    results,
    async close() {
      await results.settled();
      await pool.close();
    },
  };
}
