import { commands } from '../cli/usage.ts';
import { keyTables, type SchemaNode } from './key-tables.ts';
import { recordSchemas } from './record-schemas.ts';

/** What a kind of record is, in a few words. */
const kinds: readonly [kind: string, title: string, about: string][] = [
  ['journal', 'The journal', 'What holds for the whole site, in `journal.yaml`'],
  ['log', 'A log', 'One dated build log: its question, its short answer and its captures'],
  ['amplifier', 'An amplifier', 'What an amplifier is for'],
  ['version', 'A version', 'One version of an amplifier: its stages, supply, parts and limits'],
  ['unit', 'A unit', 'One built unit of a version: what was read and measured on it'],
  ['part', 'A part', 'A transformer, tube, device or supplier'],
  ['decision', 'A decision', 'A question, its options, its evidence and what was decided'],
  ['comparison', 'A comparison', 'Alternatives side by side: captures, conditions, criteria'],
  ['listening', 'A listening session', 'Two alternatives that were listened to, with the trials'],
  ['page', 'A page', 'A page of your own'],
];

/** Where the pages of the reference begin in the order of the handbook. */
const firstPlace = 101;

/** The pages of the handbook that are made from schemas and commands, by file name. */
export function referencePages(): Record<string, string> {
  const schemas = recordSchemas();
  const ofRecords = kinds.map(([kind, title, about], index) => {
    const schema = JSON.parse(schemas[`${kind}.schema.json`] ?? '{}') as SchemaNode;
    const front = { title: `${title}: every key`, summary: `${about}.`, order: firstPlace + 1 + index };
    return [`reference-${kind}.md`, pageText(front, recordText(schema))];
  });
  const front = { title: 'Commands', summary: 'What can be asked of Quiescent on the command line.' };
  return {
    'reference-commands.md': pageText({ ...front, order: firstPlace }, commandsText()),
    ...Object.fromEntries(ofRecords),
  };
}

interface Front {
  title: string;
  summary: string;
  order: number;
}

const pageText = ({ title, summary, order }: Front, body: string) =>
  [
    '---',
    '# Made from the schemas and the commands by `npm run schemas`; what is changed here is lost.',
    `title: ${JSON.stringify(title)}`,
    `summary: ${JSON.stringify(summary.replaceAll('`', ''))}`,
    'group: Reference',
    `order: ${order}`,
    '---',
    '',
    body,
    '',
  ].join('\n');

function recordText(schema: SchemaNode): string {
  const written = schema.title?.endsWith('.yaml')
    ? 'All of the file is keys.'
    : 'Keys stand in the frontmatter, between two lines of three dashes; prose follows in Markdown.';
  return [
    `Written in \`${schema.title ?? ''}\`. ${written}`,
    'Values with a unit are written as on paper: `5 kΩ`, `4k7`, `48 mA`, `0.22 µF`. A dimension such as *resistance* in the second column means such a value.',
    keyTables(schema),
  ].join('\n\n');
}

function commandsText(): string {
  const sections = Object.entries(commands).flatMap(([name, { usage, summary }]) => [
    `## ${name}`,
    ...usage.split(' | new ').map((one, index) => `\`quiescent ${index === 0 ? one : `new ${one}`}\``),
    `${summary.charAt(0).toUpperCase()}${summary.slice(1)}.`,
  ]);
  return [
    'Commands of the installed package begin with `npx quiescent`. What stands in brackets may be left out; a journal is looked for in `content` and a site is written to `dist` unless another folder is named.',
    'The exit code is 0 when all is well, 1 with problems in what was read, and 2 for a command line that is not understood. `npx quiescent COMMAND --help` prints the same as here. Problems are coloured on a terminal unless `NO_COLOR` is set.',
    ...sections,
  ].join('\n\n');
}
