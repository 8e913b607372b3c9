import { createHash } from 'node:crypto';
import type { CaptureReading } from '../../capture/index.ts';
import type { Analysed } from './analyse.ts';

/** What was read and computed from one capture file under one declaration. */
export interface CaptureResult {
  reading: CaptureReading;
  analysed: Analysed | null;
}

/** Results of captures by content: the same bytes and the same declaration are analysed once. */
export interface AnalysisCache {
  resultOf(sha256: string, declaration: unknown, compute: () => CaptureResult): CaptureResult;
}

/** A cache that lives as long as the process; never asked by time or name. */
export function analysisCache(): AnalysisCache {
  const results = new Map<string, CaptureResult>();
  return {
    resultOf(sha256, declaration, compute) {
      const key = `${sha256} ${JSON.stringify(declaration)}`;
      const known = results.get(key);
      if (known) return known;
      const result = compute();
      results.set(key, result);
      return result;
    },
  };
}

/** SHA-256 of bytes in lower-case hexadecimal. */
export function sha256Of(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}
