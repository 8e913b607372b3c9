import type { Curve, Trace, TraceEntry } from '../../overlay/index.ts';

const files = new Map<string, Promise<Curve[]>>();

/** The curve of a trace in a view; null where its file could not be read. */
export async function readTrace(entry: TraceEntry, view: string, folder: string): Promise<Trace | null> {
  const [path = ''] = entry.id.split(':');
  const channel = entry.id.slice(path.length + 1);
  try {
    const curves = await fileOf(`${folder}${path}.json`);
    const curve = curves.find((one) => one.view === view && one.channel === channel);
    return curve ? { ...curve, id: entry.id, title: entry.title } : null;
  } catch {
    return null;
  }
}

/** Every file is asked for once; one that failed is asked for again. */
function fileOf(address: string): Promise<Curve[]> {
  const asked = files.get(address) ?? readJson<Curve[]>(address);
  files.set(address, asked);
  asked.catch(() => files.delete(address));
  return asked;
}

/** Reads a JSON file of this site. */
export async function readJson<Content>(address: string): Promise<Content> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: ${response.status}`);
  return (await response.json()) as Content;
}
