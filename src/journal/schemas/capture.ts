import { z } from 'zod';
import type { CaptureDeclaration, ColumnDeclaration } from '../../capture/index.ts';
import { captureKinds } from '../../capture/index.ts';
import { channelName, conditions, line, quantity, slug } from './fields.ts';

const levelAs = z.enum(['rms', 'peak', 'peak-to-peak']);
const electrical = quantity('voltage', 'current', 'power');

/** What one column of the file holds; a declaration wins over what the file suggests. */
export const columnSchema = z.strictObject({
  /** The column's header, or its position counted from 1. */
  column: z.union([line, z.int().positive()]),
  /** What it measures: `voltage`, `thd`, `harmonic`, `phase` and so on. */
  quantity: z
    .enum([
      'index',
      'time',
      'frequency',
      'voltage',
      'current',
      'power',
      'impedance',
      'gain',
      'phase',
      'thd',
      'thd-plus-noise',
      'harmonic',
      'level',
      'temperature',
      'number',
    ])
    .optional(),
  /** Unit in the file: `mV`, `dBu`, `%`. */
  unit: line.optional(),
  /** Probe or attenuator ratio: `10`. */
  scale: z.number().positive().optional(),
  /** `stimulus` or `response`. */
  role: z.enum(['stimulus', 'response']).optional(),
  /** What this channel puts under test: `12AT7 driver`. */
  alternative: line.optional(),
  levelAs: levelAs.optional(),
  /** rms value of 0 dBFS: `2.2 V`. */
  fullScale: electrical.optional(),
  /** Value of 0 dB: `1 V`. */
  reference: electrical.optional(),
  /** The channel a phase, THD or harmonic column belongs to. */
  channel: line.optional(),
  /** Order of a harmonic column: `2`. */
  order: z.int().min(1).max(100).optional(),
});

/** One capture of a log: the file and everything the file does not say itself. */
export const captureSchema = z.strictObject({
  /** File name, beside the log: `tone-1w.csv`. */
  file: line,
  /** Name in the log and in addresses; left out, the file name without extension. */
  id: slug.optional(),
  /** `1 kHz at 1 W into 8 Ω`. */
  title: line,
  /** The reason for this capture, one sentence. */
  why: line.optional(),
  kind: z.enum(captureKinds as [string, ...string[]]).optional(),
  /** Id of an instrument in journal.yaml. */
  instrument: slug.optional(),
  /** The version measured, where it differs from the log's. */
  version: line.optional(),
  /** What the whole capture puts under test. */
  alternative: line.optional(),
  /** Whether the two channels were exchanged as a control. */
  exchanged: z.boolean().optional(),
  /** Load at the output: `8 Ω`. */
  load: quantity('resistance').optional(),
  /** Highest harmonic counted: `10` (default). */
  harmonics: z.int().min(2).max(100).optional(),
  /** Band for THD+N: `[20 Hz, 20 kHz]` (default). */
  band: z.tuple([quantity('frequency'), quantity('frequency')]).optional(),
  conditions: conditions.default({}),
  /** Sampling rate where the file has no time column: `192 kHz`. */
  rate: quantity('frequency').optional(),
  /** Lines before the numbers: `4`. */
  skip: z.int().min(0).optional(),
  delimiter: z.enum([',', ';', '\t', ' ']).optional(),
  decimalMark: z.enum(['.', ',']).optional(),
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']).optional(),
  levelAs: levelAs.optional(),
  fullScale: electrical.optional(),
  reference: electrical.optional(),
  columns: z.record(channelName, columnSchema).optional(),
});

export type CaptureData = z.infer<typeof captureSchema>;

/** The declaration as the capture room takes it. */
export function captureDeclaration(data: CaptureData): CaptureDeclaration {
  const { skip, delimiter, decimalMark, encoding, levelAs, fullScale, reference: zero } = data;
  const declared = {
    kind: data.kind as CaptureDeclaration['kind'],
    rateHz: data.rate,
    loadOhm: data.load,
    columns: data.columns && mapValues(data.columns, (column) => defined<ColumnDeclaration>(column)),
    ...{ skip, delimiter, decimalMark, encoding, levelAs, fullScale, reference: zero },
  };
  return defined<CaptureDeclaration>(declared);
}

/** The object without its undefined members. */
function defined<T extends object>(value: { [K in keyof T]: T[K] | undefined }): T {
  return Object.fromEntries(Object.entries(value).filter(([, member]) => member !== undefined)) as T;
}

function mapValues<A, B>(record: Record<string, A>, change: (value: A) => B): Record<string, B> {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}
