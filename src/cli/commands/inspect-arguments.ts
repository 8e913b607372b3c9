import { type CaptureDeclaration, type CaptureKind, captureKinds } from '../../capture/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import { readArguments, UsageFault, wholeNumber } from '../arguments.ts';

export interface InspectOptions {
  /** Files, folders, or `-` for standard input. */
  files: string[];
  json: boolean;
  declare: boolean;
  harmonics: number | undefined;
  /** Nominal frequency of the mains; 50 Hz where it is not told. */
  mainsHz: number | undefined;
  declaration: CaptureDeclaration;
}

const options = {
  json: { type: 'boolean', default: false },
  declare: { type: 'boolean', default: false },
  kind: { type: 'string' },
  map: { type: 'string', multiple: true, default: [] as string[] },
  harmonics: { type: 'string' },
  load: { type: 'string' },
  mains: { type: 'string' },
} as const;

/** Reads the command line of `inspect` into a declaration, as frontmatter would give it. */
export function inspectArguments(args: string[]): InspectOptions {
  const { values, positionals } = readArguments(args, options);
  const { json, declare, kind, map, harmonics, load, mains } = values;
  return {
    files: filesOf(positionals),
    json,
    declare,
    harmonics: harmonics === undefined ? undefined : wholeNumber(harmonics, 'harmonics', [2, 100]),
    mainsHz: mains === undefined ? undefined : mainsOf(mains),
    declaration: {
      ...(kind === undefined ? {} : { kind: kindOf(kind) }),
      ...(load === undefined ? {} : { loadOhm: loadOf(load) }),
      ...(map.length === 0 ? {} : { columns: Object.fromEntries(map.map(columnOf)) }),
    },
  };
}

function filesOf(words: string[]): string[] {
  if (words.length === 0) throw new UsageFault('inspect needs a file: quiescent inspect FILE');
  if (words.filter((word) => word === '-').length > 1)
    throw new UsageFault('Standard input, "-", can be read once only.');
  return words;
}

function kindOf(text: string): CaptureKind {
  const kind = captureKinds.find((candidate) => candidate === text);
  if (kind === undefined)
    throw new UsageFault(`--kind takes one of ${captureKinds.join(', ')}, not "${text}".`);
  return kind;
}

/** A load in ohms, with or without its unit. */
function loadOf(text: string): number {
  const reading = parseQuantity(/^[\d.]+$/.test(text) ? `${text} Ω` : text, 'resistance');
  if ('fault' in reading) throw new UsageFault(`--load: ${reading.fault.message}`);
  if (reading.quantity.value <= 0) throw new UsageFault(`--load takes a resistance above 0, not "${text}".`);
  return reading.quantity.value;
}

/** 50 or 60, with or without its unit. */
function mainsOf(text: string): number {
  const [, number] = /^(50|60)(?: ?Hz)?$/.exec(text) ?? [];
  if (number === undefined) throw new UsageFault(`--mains takes 50 Hz or 60 Hz, not "${text}".`);
  return Number(number);
}

function columnOf(text: string): [string, { column: string | number }] {
  const [name, ...rest] = text.split('=');
  const column = rest.join('=');
  if (!name || column === '') throw new UsageFault(`--map takes NAME=COLUMN, not "${text}".`);
  return [name, { column: /^\d+$/.test(column) ? Number(column) : column }];
}
