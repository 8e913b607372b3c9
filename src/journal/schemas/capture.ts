import { z } from 'zod';
import type { CaptureDeclaration, ColumnDeclaration } from '../../capture/index.ts';
import { captureKinds } from '../../capture/index.ts';
import { channelName, conditions, line, positiveNumber, quantity, slug, wholeNumber } from './fields.ts';

const levelAs = z.enum(['rms', 'peak', 'peak-to-peak']);
const electrical = quantity('voltage', 'current', 'power');

const twoTones = z
  .tuple([quantity('frequency'), quantity('frequency')], { error: 'A list of two frequencies is expected.' })
  .refine(([one, other]) => one > 0 && other > 0 && one !== other, {
    error: 'Two different frequencies above 0 Hz are expected here.',
    params: { rule: 'number', hint: 'Write both, for example [60 Hz, 7 kHz].' },
  });

const powerAboveZero = quantity('power').refine((watts) => watts > 0, {
  error: 'A power above 0 W is expected here.',
  params: { rule: 'number' },
});

const expectedColumn = 'A header, or the number of a column counted from 1, is expected';
const headerOrPosition = z
  .union([z.string().trim(), z.number()], { error: expectedColumn })
  .refine((column) => (typeof column === 'string' ? column !== '' : Number.isInteger(column) && column > 0), {
    error: (issue) => `${expectedColumn} here, but this is ${JSON.stringify(issue.input)}.`,
    params: { rule: 'number' },
  });

/** What one column of the file holds; a declaration wins over what the file suggests. */
export const columnSchema = z.strictObject({
  /** The column's header, or its position counted from 1. */
  column: headerOrPosition,
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
  scale: positiveNumber().optional(),
  /** `stimulus` or `response`. */
  role: z.enum(['stimulus', 'response']).optional(),
  /** What this channel puts under test: `12AT7 driver`. */
  alternative: line.optional(),
  /** Which value of a wave its levels state. */
  levelAs: levelAs.optional(),
  /** rms value of 0 dBFS: `2.2 V`. */
  fullScale: electrical.optional(),
  /** Value of 0 dB: `1 V`. */
  reference: electrical.optional(),
  /** The channel a phase, THD or harmonic column belongs to. */
  channel: line.optional(),
  /** Order of a harmonic column: `2`. */
  order: wholeNumber(1, 100).optional(),
  /** Load across which this channel was measured: `4 Ω`; two of them give the output impedance. */
  load: quantity('resistance').optional(),
});

const captureKeys = z.strictObject({
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
  /** Powers at which THD of a level sweep is stated, besides 1 W: `[0.25 W, 2 W]`. */
  atPower: z.array(powerAboveZero).optional(),
  /** What an impedance sweep was measured on: `loudspeaker`, `amplifier` (its output) or `transformer`. */
  impedanceOf: z.enum(['loudspeaker', 'amplifier', 'transformer']).optional(),
  /** The secondary while a transformer's primary was measured: `open` or `shorted`. */
  secondary: z.enum(['open', 'shorted']).optional(),
  /** Id of the same sweep into another load: `into-4-ohm`. */
  otherLoad: line.optional(),
  /** Limit within which two readings of a level agree: `0.1 %`. */
  readingAccuracy: quantity('ratio').optional(),
  /** Rated load for the damping factor, where it is not that of the version: `8 Ω`. */
  ratedLoad: quantity('resistance').optional(),
  /** Id of the impedance sweep of a loudspeaker to put on this output impedance: `loudspeaker-impedance`. */
  loudspeaker: line.optional(),
  /** Id of a frequency sweep with phase from this capture's stimulus to its response: `grid-to-speaker`. */
  responseSweep: line.optional(),
  /** Highest harmonic counted: `10` (default). */
  harmonics: wholeNumber(2, 100).optional(),
  /** Band for THD+N: `[20 Hz, 20 kHz]` (default). */
  band: z.tuple([quantity('frequency'), quantity('frequency')]).optional(),
  /** The two tones of a two-tone capture: `[60 Hz, 7 kHz]`; left out, the two strongest lines. */
  tones: twoTones.optional(),
  /** What holds for the capture, each with a name of your own: `{ level: 1 W, frequency: 1 kHz }`. */
  conditions: conditions.default({}),
  /** Sampling rate where the file has no time column: `192 kHz`. */
  rate: quantity('frequency').optional(),
  /** Lines before the numbers: `4`. */
  skip: wholeNumber(0).optional(),
  /** What stands between the columns. */
  delimiter: z.enum([',', ';', '\t', ' ']).optional(),
  /** The mark before decimals. */
  decimalMark: z.enum(['.', ',']).optional(),
  /** How the bytes of the file make letters. */
  encoding: z.enum(['utf-8', 'utf-16le', 'utf-16be', 'windows-1252']).optional(),
  /** Which value of a wave its levels state. */
  levelAs: levelAs.optional(),
  /** rms value of 0 dBFS: `2.2 V`. */
  fullScale: electrical.optional(),
  /** Value of 0 dB: `1 V`. */
  reference: electrical.optional(),
  /** What single columns hold, by the name that their channel gets: `{ speaker: { column: 2, unit: V } }`. */
  columns: z.record(channelName, columnSchema).optional(),
});

const tonesFit = ({ kind, tones }: z.infer<typeof captureKeys>) =>
  tones === undefined || kind === undefined || kind === 'two-tone';

/** One capture of a log: the file and everything the file does not say itself. */
export const captureSchema = captureKeys.refine(tonesFit, {
  path: ['tones'],
  error: 'Two tones belong to a two-tone capture, but this capture is declared as another kind.',
  params: { rule: 'tones-of-another-kind', hint: 'Write kind: two-tone, or leave the tones out.' },
});

export type CaptureData = z.infer<typeof captureSchema>;

/** The declaration as the capture room takes it. */
export function captureDeclaration(data: CaptureData): CaptureDeclaration {
  const { skip, delimiter, decimalMark, encoding, levelAs, fullScale, reference: zero } = data;
  const declared = {
    kind: (data.kind ?? (data.tones && 'two-tone')) as CaptureDeclaration['kind'],
    rateHz: data.rate,
    loadOhm: data.load,
    columns:
      data.columns &&
      mapValues(data.columns, ({ load: _load, ...column }) => defined<ColumnDeclaration>(column)),
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
