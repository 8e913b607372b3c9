import { deserialize, serialize } from 'node:v8';
import type { Capture, Column } from '../../capture/index.ts';
import type { Analysis } from './analyse.ts';
import type { CaptureResult } from './capture-result.ts';

/** A result as bytes: readings of sampled captures, by far the most of it, stand apart from all else. */
export interface PackedResult {
  result: Uint8Array;
  /** The samples of every column, one after the other; null where `result` holds everything. */
  samples: Uint8Array | null;
}

/** Turns a result into bytes that can be kept or handed to another thread. */
export function packed(result: CaptureResult): PackedResult {
  const columns = sampledColumns(result);
  if (columns === null) return { result: serialize(result), samples: null };
  return { result: serialize(withoutSamples(result)), samples: joined(columns) };
}

/**
 * The result that was packed. Samples are fetched when a column's `values` are first asked for, and let go of when
 * nobody holds them, so that a journal of many records stays small.
 */
export function unpacked(
  bytes: Uint8Array,
  fetchSamples: (columns: number) => Float64Array[],
): CaptureResult {
  const result: CaptureResult = deserialize(bytes);
  const columns = sampledColumns(result);
  if (columns === null) return result;
  const samples = heldWeakly(() => fetchSamples(columns.length));
  for (const list of [columns, channelsOf(result.analysed?.analysis)]) {
    for (const [index, column] of list.entries()) defineValues(column, () => samples()[index]);
  }
  return result;
}

/** The columns of one capture from the bytes that hold their samples one after the other. */
export function splitSamples(bytes: Uint8Array, columns: number): Float64Array[] {
  const all = new Float64Array(new Uint8Array(bytes).buffer);
  const rows = all.length / columns;
  return Array.from({ length: columns }, (_, index) => all.subarray(index * rows, (index + 1) * rows));
}

interface HoldsValues {
  values: Float64Array;
}

/** The analysis of a record of samples, whose channels are the columns over again. */
type SampledAnalysis = Extract<Analysis, { kind: 'waveform' | 'two-tone' }>;

export const isSampled = (analysis: Analysis): analysis is SampledAnalysis =>
  analysis.kind === 'waveform' || analysis.kind === 'two-tone';

/** The columns of a capture that is a record of samples; null for any other. */
function sampledColumns({ reading: { capture }, analysed }: CaptureResult): Column[] | null {
  return capture && analysed && isSampled(analysed.analysis) ? capture.columns : null;
}

const channelsOf = (analysis: Analysis | undefined): HoldsValues[] =>
  analysis && isSampled(analysis) ? analysis.channels : [];

function withoutSamples(result: CaptureResult): CaptureResult {
  const { reading, analysed } = result;
  return {
    ...result,
    reading: { ...reading, capture: reading.capture && emptied(reading.capture, 'columns') },
    analysed:
      analysed && isSampled(analysed.analysis)
        ? { ...analysed, analysis: emptied(analysed.analysis, 'channels') }
        : analysed,
  };
}

const none = new Float64Array(0);

function emptied<Name extends string, Whole extends Record<Name, HoldsValues[]>>(
  whole: Whole,
  name: Name,
): Whole {
  return { ...whole, [name]: whole[name].map((one) => ({ ...one, values: none })) };
}

function joined(columns: Capture['columns']): Uint8Array {
  const rows = columns[0]?.values.length ?? 0;
  const all = new Float64Array(rows * columns.length);
  for (const [index, { values }] of columns.entries()) all.set(values, index * rows);
  return new Uint8Array(all.buffer);
}

function defineValues(column: HoldsValues, get: () => Float64Array | undefined): void {
  Object.defineProperty(column, 'values', {
    ...{ enumerable: true, configurable: true },
    get: () => get() ?? none,
  });
}

function heldWeakly<Value extends object>(fetch: () => Value): () => Value {
  let held: WeakRef<Value> | null = null;
  return () => {
    const value = held?.deref() ?? fetch();
    held = new WeakRef(value);
    return value;
  };
}
