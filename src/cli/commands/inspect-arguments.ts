import { type CaptureDeclaration, type CaptureKind, captureKinds } from '../../capture/index.ts';
import { parseQuantity } from '../../quantity/index.ts';
import { onlyFile, readArguments, UsageFault, wholeNumber } from '../arguments.ts';

export interface InspectOptions {
  file: string;
  json: boolean;
  declare: boolean;
  harmonics: number | undefined;
  declaration: CaptureDeclaration;
}

const options = {
  json: { type: 'boolean', default: false },
  declare: { type: 'boolean', default: false },
  kind: { type: 'string' },
  map: { type: 'string', multiple: true, default: [] as string[] },
  harmonics: { type: 'string' },
  load: { type: 'string' },
} as const;

/** Reads the command line of `inspect` into a declaration, as frontmatter would give it. */
export function inspectArguments(args: string[]): InspectOptions {
  const { values, positionals } = readArguments(args, options);
  const { json, declare, kind, map, harmonics, load } = values;
  return {
    file: onlyFile(positionals, 'inspect'),
    json,
    declare,
    harmonics: harmonics === undefined ? undefined : wholeNumber(harmonics, 'harmonics', [2, 100]),
    declaration: {
      ...(kind === undefined ? {} : { kind: kindOf(kind) }),
      ...(load === undefined ? {} : { loadOhm: loadOf(load) }),
      ...(map.length === 0 ? {} : { columns: Object.fromEntries(map.map(columnOf)) }),
    },
  };
}

function kindOf(text: string): CaptureKind {
  const kind = captureKinds.find((candidate) => candidate === text);
  if (kind === undefined) throw new UsageFault(`--kind takes one of ${captureKinds.join(', ')}, not "${text}".`);
  return kind;
}

/** A load in ohms, with or without its unit. */
function loadOf(text: string): number {
  const reading = parseQuantity(/^[\d.]+$/.test(text) ? `${text} Ω` : text, 'resistance');
  if ('fault' in reading) throw new UsageFault(`--load: ${reading.fault.message}`);
  return reading.quantity.value;
}

function columnOf(text: string): [string, { column: string | number }] {
  const [name, ...rest] = text.split('=');
  const column = rest.join('=');
  if (!name || column === '') throw new UsageFault(`--map takes NAME=COLUMN, not "${text}".`);
  return [name, { column: /^\d+$/.test(column) ? Number(column) : column }];
}
