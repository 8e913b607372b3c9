import type { Curve, Trace, TraceEntry } from '../../overlay/index.ts';

const files = new Map<string, Promise<unknown>>();

/** The curve of a trace in a view; null where its file could not be read. */
export async function readTrace(entry: TraceEntry, view: string, folder: string): Promise<Trace | null> {
  const [path = ''] = entry.id.split(':');
  const channel = entry.id.slice(path.length + 1);
  try {
    const curves = await readOnce<Curve[]>(`${folder}${path}.json`);
    const curve = curves.find((one) => one.view === view && one.channel === channel);
    return curve ? { ...curve, id: entry.id, title: entry.title } : null;
  } catch {
    return null;
  }
}

/** Reads a JSON file of this site and keeps it; one that failed is asked for again. */
export function readOnce<Content>(address: string): Promise<Content> {
  const asked = files.get(address) ?? readJson<unknown>(address);
  files.set(address, asked);
  asked.catch(() => files.delete(address));
  return asked as Promise<Content>;
}

/** Reads a JSON file of this site. */
export async function readJson<Content>(address: string): Promise<Content> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return (await response.json()) as Content;
}
