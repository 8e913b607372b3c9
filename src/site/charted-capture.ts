import { isSampled } from '../journal/analysis/packed-result.ts';
import { sha256Of } from '../journal/analysis/sha256.ts';
import type { CaptureRecord } from '../journal/types.ts';

/** All that the charts and curves of a capture are made of. */
export interface ChartedCapture extends Pick<CaptureRecord, 'analysis' | 'output' | 'measurement'> {
  data: Pick<CaptureRecord['data'], 'title'>;
}

const known = new WeakMap<CaptureRecord, string>();

/**
 * Tells what the charts of a capture are made of from all else, in a few characters. Samples are told by the bytes of
 * their file and how it is read, so that none have to be fetched.
 */
export function chartedDigest(capture: CaptureRecord): string {
  const digest = known.get(capture) ?? digestOf(capture);
  known.set(capture, digest);
  return digest;
}

function digestOf({ analysis, output, measurement, data: { title }, sha256, declaration }: CaptureRecord) {
  const charted: ChartedCapture = {
    analysis: withoutSamples(analysis),
    output,
    measurement,
    data: { title },
  };
  const content = JSON.stringify([charted, sha256, declaration], written);
  return sha256Of(content);
}

/** Each field by its name, as a copy of all of them would fetch the samples. */
function withoutSamples(analysis: CaptureRecord['analysis']): CaptureRecord['analysis'] {
  if (!isSampled(analysis)) return analysis;
  const channels = analysis.channels.map(({ name, role, unit }) => ({ name, role, unit, values: none }));
  return { ...analysis, channels };
}

const none = new Float64Array(0);

/** What JSON has no form for: readings by their bits, numbers that are none by name, maps by their entries. */
function written(_: string, value: unknown): unknown {
  if (ArrayBuffer.isView(value))
    return { bits: Buffer.from(value.buffer, value.byteOffset, value.byteLength).toString('base64') };
  if (value instanceof Map || value instanceof Set) return { entries: [...value] };
  if (typeof value === 'number' && !Number.isFinite(value)) return { number: String(value) };
  return value;
}
