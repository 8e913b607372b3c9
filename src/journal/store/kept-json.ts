import type { ResultStore } from './result-store.ts';

/** The value kept under a key as JSON; null where there is none. */
export function keptJson<Value>(store: ResultStore, key: string): Value | null {
  const bytes = store.get(key);
  return bytes && (JSON.parse(Buffer.from(bytes).toString('utf8')) as Value);
}

/** Keeps a value, which has to be whole as JSON. */
export const keepJson = (store: ResultStore, key: string, value: unknown): Promise<void> =>
  store.put(key, Buffer.from(JSON.stringify(value)));
