import { readFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { readCapture } from '../../capture/index.ts';
import { reasonOf } from '../files.ts';
import { codeVersion } from '../store/code-version.ts';
import { resultKey } from '../store/result-key.ts';
import type { ResultStore } from '../store/result-store.ts';
import { type CaptureRequest, type CaptureResult, captureResult } from './capture-result.ts';
import { limited } from './limited.ts';
import { type PackedResult, packed, splitSamples, unpacked } from './packed-result.ts';
import { sha256Of } from './sha256.ts';

/** A capture file of a journal, and what it is read and analysed with. */
export interface FileRequest extends CaptureRequest {
  /** Absolute path. */
  path: string;
}

/** What a capture file holds, by its bytes. */
export interface FoundResult {
  sha256: string;
  bytes: number;
  result: CaptureResult;
}

/** Where a result came from: worked out now, kept on disk, or known to this process. */
export type ResultOrigin = 'computed' | 'kept' | 'known';

/** Results of captures by content: the same bytes and the same declaration are analysed once. */
export interface AnalysisCache {
  /** Says that so many more captures are going to be asked for. */
  expect(captures: number): void;
  /** The result of a file, or the system's reason why it cannot be read. */
  resultOf(request: FileRequest): Promise<FoundResult | { unreadable: string }>;
}

export interface AnalysisOptions {
  /** Keeps results for other processes. Without one they live as long as the cache, with all their samples. */
  store?: ResultStore;
  /** Analyses in the place of this thread. */
  compute?: (bytes: Uint8Array, request: CaptureRequest) => Promise<PackedResult>;
  onExpected?: (captures: number) => void;
  onResult?: (origin: ResultOrigin) => void;
}

/** Bytes of so many captures are held at a time. */
const mostAtOnce = 8;

/** The code that a result depends on. */
const version = () =>
  codeVersion(['problem', 'quantity', 'capture', 'signal', 'journal/analysis'], ['fft.js', 'ml-matrix']);

/** A cache that asks by content, never by time or name. */
export function analysisCache(options: AnalysisOptions = {}): AnalysisCache {
  const results = new Map<string, CaptureResult>();
  const inTurn = limited(mostAtOnce);
  const { onResult = () => undefined } = options;
  return {
    expect: options.onExpected ?? (() => undefined),
    resultOf: (request) =>
      inTurn(async () => {
        const bytes = await readFile(request.path).catch(reasonOf);
        if (typeof bytes === 'string') return { unreadable: bytes };
        const sha256 = sha256Of(bytes);
        const { path: _, ...about } = request;
        const content = `${sha256} ${JSON.stringify(about)}`;
        const known = results.get(content);
        const { result, origin } = known
          ? { result: known, origin: 'known' as const }
          : await fetched({ bytes, content, sha256, request }, options);
        results.set(content, result);
        onResult(origin);
        return { sha256, bytes: bytes.length, result };
      }),
  };
}

interface Wanted {
  bytes: Uint8Array;
  sha256: string;
  /** Names the bytes and what they are read and analysed with. */
  content: string;
  request: FileRequest;
}

interface Fetched {
  result: CaptureResult;
  origin: ResultOrigin;
}

async function fetched(wanted: Wanted, { store, compute }: AnalysisOptions): Promise<Fetched> {
  const { bytes, request } = wanted;
  if (!store) return { result: captureResult(bytes, request), origin: 'computed' };
  const [resultAt, samplesAt] = ['capture', 'samples'].map((kind) =>
    resultKey(kind, version(), wanted.content),
  ) as [string, string];
  const open = (result: Uint8Array) => unpacked(result, samplesOf(wanted, store, samplesAt));
  const kept = store.get(resultAt);
  if (kept) return { result: open(kept), origin: 'kept' };
  const made = compute ? await compute(bytes, request) : packed(captureResult(bytes, request));
  if (made.samples) await store.put(samplesAt, made.samples);
  await store.put(resultAt, made.result);
  return { result: open(made.result), origin: 'computed' };
}

/** Fetches samples from the store, or from the file itself where the store has let go of them. */
function samplesOf(
  { sha256, request: { path, file, declaration } }: Wanted,
  store: ResultStore,
  key: string,
): (columns: number) => Float64Array[] {
  return (columns) => {
    const kept = store.get(key);
    if (kept) return splitSamples(kept, columns);
    const bytes = readFileSync(path);
    if (sha256Of(bytes) !== sha256) throw new Error(`${file} was changed while the site was being made.`);
    return (readCapture(bytes, file, declaration).capture?.columns ?? []).map(({ values }) => values);
  };
}
