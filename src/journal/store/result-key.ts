import { createHash } from 'node:crypto';

/**
 * The key of a result: SHA-256 over its kind, the version of the code that makes it (`codeVersion`) and all that
 * goes into it. Each part counts with its length, so that no two lists of parts share a key by where they meet.
 */
export function resultKey(kind: string, version: string, ...parts: readonly (string | Uint8Array)[]): string {
  const hash = createHash('sha256');
  for (const part of [kind, version, ...parts]) {
    const bytes = typeof part === 'string' ? Buffer.from(part) : part;
    hash.update(`${bytes.length}:`).update(bytes);
  }
  return hash.digest('hex');
}
