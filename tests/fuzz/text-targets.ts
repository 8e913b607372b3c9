import { readCapture } from '../../src/capture/index.ts';
import { analyse } from '../../src/journal/analysis/analyse.ts';
import { partOf } from '../../src/journal/files.ts';
import { splitMarkdown } from '../../src/journal/frontmatter.ts';
import { schemaOf } from '../../src/journal/schemas/index.ts';
import { validate } from '../../src/journal/validate.ts';
import { readPartsFile } from '../../src/journal/versions/parts-file.ts';
import { readYaml } from '../../src/journal/yaml.ts';
import { readKey } from '../../src/listening/index.ts';
import { type Fault, problemAt } from '../../src/problem/index.ts';
import { type Dimension, parsePrice, parseQuantity } from '../../src/quantity/index.ts';
import { captureTexts, quantityTexts, recordTexts } from './corpus.ts';
import { mutated, mutatedBytes } from './mutations.ts';
import type { Outcome, Target } from './target.ts';

const at = { file: 'input', line: 1, column: 1 };
const dimensions: readonly Dimension[] = [
  'resistance',
  'current',
  'ratio',
  'frequency',
  'level',
  'temperature',
];

const ofFault = (fault: Fault | null, result: unknown): Outcome => ({
  problems: fault ? [problemAt(at, fault)] : [],
  text: null,
  result,
});

const quantities: Target = {
  share: 62_000,
  read: (chance) => {
    const text = mutated(chance.pick(quantityTexts), chance);
    const dimension = chance.pick(dimensions);
    return () => {
      const read = parseQuantity(text, dimension);
      if ('quantity' in read && !Number.isFinite(read.quantity.value))
        throw new Error('A quantity is not finite.');
      return ofFault('fault' in read ? read.fault : null, [read, parsePrice(text)]);
    };
  },
};

const csv = captureTexts();

const captures: Target = {
  share: 9000,
  read: (chance) => {
    const bytes = mutatedBytes(chance.pick(csv), chance);
    return () => {
      const { capture, problems, declaration } = readCapture(bytes, 'input');
      const isReadable = bytes[0] !== 0xff && bytes[0] !== 0xfe && declaration?.encoding !== 'utf-16le';
      const text = isReadable ? Buffer.from(bytes).toString('latin1') : null;
      return { problems, text, result: [declaration, capture && analyse(capture, {})] };
    };
  },
};

const records = recordTexts();

/** The schema that the text at a path is held against. */
function schemaFor(file: string) {
  const part = partOf(file);
  return part === 'stray' || part === 'other' ? null : schemaOf[part];
}

const frontmatter: Target = {
  share: 14_000,
  read: (chance) => {
    const { file, text: whole } = chance.pick(records);
    const schema = schemaFor(file) ?? schemaOf.page;
    const text = mutated(whole, chance);
    return () => {
      if (file.endsWith('.yaml')) {
        const yaml = readYaml(text, 'input');
        return { text, ...withData(yaml.problems.length > 0 ? yaml : validate(schema, yaml)) };
      }
      const { parts, problems } = splitMarkdown(text, 'input');
      const sound = parts !== null && problems.length === 0;
      return { text, ...withData(sound ? validate(schema, parts.frontmatter) : { problems }) };
    };
  },
};

const withData = (read: Pick<Outcome, 'problems'> & { data?: unknown }) => ({
  problems: read.problems,
  result: read.data ?? null,
});

const claimWords: Readonly<Record<string, readonly string[]>> = {
  id: ['half', '__proto__', 'A b'],
  rule: ['cancelling-halves', ''],
  says: ['It falls.', '""'],
  date: ['2026-02-10', '2026-02-30'],
  figure: ['thd', 'harmonic-2', 'constructor', '7'],
  of: ['logs/a/tone#speaker', 'tone', '#', 'a#b#c'],
  than: ['logs/a/tone', '[ a ]'],
  against: ['1 %', '5 kΩ', '-1 dB', '1e999 V', '"="'],
  at: ['{ frequency: 1 kHz }', '{ power: 1 W }', '{ frequency: 0 Hz }', '1 kHz'],
  over: ['[ 20 Hz, 20 kHz ]', '[ 20 kHz, 20 Hz ]', '[ 1 Hz ]'],
  take: ['mean', 'median'],
  relation: ['lower', 'higher', 'within', 'equal', 'less'],
  by: ['10 dB', '0', '-5 %', '2 W'],
};

const claims: Target = {
  share: 14_000,
  read: (chance) => {
    const lines = Array.from({ length: 1 + chance.below(4) }, () =>
      Object.entries(claimWords)
        .filter(() => chance.below(3) > 0)
        .map(([key, words], index) => `  ${index === 0 ? '-' : ' '} ${key}: ${chance.pick(words)}\n`)
        .join(''),
    );
    const head = `title: T\ndate: 2026-02-15\namplifier: a\nquestion: Q\nstate: open\noptions: []\n`;
    const whole = `${head}${chance.pick(['evidence', 'expectations'])}:\n${lines.join('')}`;
    const text = chance.below(3) === 0 ? whole : mutated(whole, chance);
    return () => {
      const yaml = readYaml(text, 'input');
      return { text, ...withData(yaml.problems.length > 0 ? yaml : validate(schemaOf.decision, yaml)) };
    };
  },
};

const partLists = 'part,value,quantity,price,supplier\nR1,4k7,2,"0,10 EUR",a\n"C1, C2",0.22 µF,,1.50 EUR,\n';
const key = `order of a listening session\nsession listening/a\ntask discrimination\nsalt ${'0'.repeat(32)}\n1 a\n2 b\n`;

const lists: Target = {
  share: 700,
  read: (chance) => {
    const text = mutated(chance.pick([partLists, key, ...csv.slice(0, 1)]), chance);
    return () => {
      const sheet = readPartsFile(text, 'input');
      const order = readKey(text);
      const told = 'fault' in order ? [problemAt({ ...at, line: order.line }, order.fault)] : [];
      return {
        text,
        problems: [...sheet.problems, ...told],
        result: [sheet.parts.map(({ line }) => line), order],
      };
    };
  },
};

export const textTargets = { quantities, captures, frontmatter, claims, lists };
