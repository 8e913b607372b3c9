import type { Fault } from '../problem/index.ts';

const orNone = (names: readonly string[], otherwise: string) =>
  names.length > 0 ? `Did you mean ${names.join(' or ')}?` : otherwise;

/** Every sentence that the journal room says about what a person wrote. */
export const messages = {
  yamlSyntax: (detail: string): Fault => ({
    rule: 'yaml-syntax',
    message: `This is not valid YAML: ${firstLine(detail)}`,
    hint: 'Look at the indentation, quotes and colons here; a text with ": " in it needs quotes around it.',
  }),
  frontmatterMissing: (): Fault => ({
    rule: 'frontmatter-missing',
    message: 'The file does not begin with frontmatter.',
    hint: 'Begin with a line of three dashes, then keys such as title:, then three dashes again.',
  }),
  frontmatterOpen: (): Fault => ({
    rule: 'frontmatter-open',
    message: 'The frontmatter is not closed.',
    hint: 'End it with a line of three dashes.',
  }),
  frontmatterLanguage: (language: string): Fault => ({
    rule: 'frontmatter-language',
    message: `Frontmatter is read as YAML; "${language}" behind the dashes is refused, as it could run code.`,
    hint: 'Remove the word and write the keys in YAML.',
  }),
  unknownKey: (key: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-key',
    message: `The key "${key}" is not known here.`,
    hint: orNone(near, `Keys that can stand here: ${known.join(', ')}.`),
  }),
  missingKey: (key: string): Fault => ({
    rule: 'missing-key',
    message: `The key "${key}" is missing.`,
    hint: `Add a line "${key}:" with its value.`,
  }),
  wrongType: (expected: string, found: string): Fault => ({
    rule: 'wrong-type',
    message: `${expected} is expected here, but this is ${found}.`,
  }),
  notOneOf: (value: string, near: readonly string[], options: readonly string[]): Fault => ({
    rule: 'not-an-option',
    message: `${value} is not one of ${options.join(', ')}.`,
    hint: orNone(near, 'Write one of them.'),
  }),
  badValue: (detail: string): Fault => ({ rule: 'value', message: detail }),
  noJournalFile: (): Fault => ({
    rule: 'journal-missing',
    message: 'The folder has no journal.yaml, so it is not a journal.',
    hint: 'Create journal.yaml with at least title: and author:.',
  }),
  noFolder: (folder: string): Fault => ({
    rule: 'journal-missing',
    message: `The folder "${folder}" does not exist or is not a folder.`,
    hint: 'Name the journal with --journal DIR.',
  }),
  unreadable: (detail: string): Fault => ({
    rule: 'unreadable',
    message: `The file cannot be read: ${detail}`,
  }),
  notUtf8: (): Fault => ({
    rule: 'encoding',
    message: 'The file is not UTF-8 text.',
    hint: 'Save it as UTF-8.',
  }),
  leavesJournal: (path: string): Fault => ({
    rule: 'outside-journal',
    message: `"${path}" leads out of the journal's folder; nothing outside is read or published.`,
    hint: 'Copy the file into the journal and name it by a relative path.',
  }),
  strayFile: (): Fault => ({
    rule: 'stray-record',
    severity: 'warning',
    message: 'This Markdown file is not at a place where a record is expected, so it would not be published.',
    hint: 'Records live in amplifiers/<amplifier>/ and logs/<date>-<slug>/index.md.',
  }),
  twiceOneId: (id: string, other: string): Fault => ({
    rule: 'duplicate-id',
    message: `The record "${id}" exists twice: here and in ${other}.`,
    hint: 'Rename or remove one of the two files.',
  }),
  mdxOff: (): Fault => ({
    rule: 'mdx-off',
    message: '.mdx logs run code while the site is built and are off in this journal.',
    hint: 'Rename the file to .md and use directives, or set mdx: true in journal.yaml.',
  }),
  mdxSyntax: (detail: string): Fault => ({
    rule: 'mdx-syntax',
    message: `This is not valid MDX: ${detail.replace(/\.?$/, '.')}`,
    hint: 'In .mdx a < or { in running text is written \\< or \\{.',
  }),
  dangling: (kind: string, id: string, near: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no ${kind} "${id}" in this journal.`,
    hint: orNone(near, 'Write the path of its file without extension.'),
  }),
  wrongFolder: (version: string, amplifier: string): Fault => ({
    rule: 'version-of-another-amplifier',
    message: `The version "${version}" does not belong to the amplifier "${amplifier}".`,
  }),
  versionCycle: (chain: readonly string[]): Fault => ({
    rule: 'version-cycle',
    message: `The versions follow each other in a circle: ${chain.join(' → ')}.`,
    hint: 'The first version follows none.',
  }),
  captureMissing: (file: string, near: readonly string[]): Fault => ({
    rule: 'capture-missing',
    message: `The capture file "${file}" is not beside the log.`,
    hint: orNone(near, 'Put the CSV file into the folder of the log.'),
  }),
  captureTwice: (id: string): Fault => ({
    rule: 'duplicate-id',
    message: `Two captures of this log are called "${id}".`,
    hint: 'Give one of them another id.',
  }),
  unknownColumn: (name: string, known: readonly string[]): Fault => ({
    rule: 'unknown-channel',
    message: `The capture has no channel "${name}".`,
    hint: `It has: ${known.join(', ')}.`,
  }),
  unknownFigure: (figure: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `The capture has no figure "${figure}".`,
    hint: orNone(near, `It has: ${known.join(', ')}.`),
  }),
  figureForm: (text: string): Fault => ({
    rule: 'figure-form',
    message: `"${text}" does not name a capture of this log.`,
    hint: 'Write capture or capture#channel, for example tone-1w#speaker.',
  }),
  nothingToCompute: (): Fault => ({
    rule: 'nothing-to-compute',
    message: 'The file describes neither stages nor a supply.',
    hint: 'Add stages: or supply: as in a version record.',
  }),
} as const;

const firstLine = (text: string) => (text.split('\n')[0] ?? '').replace(/:$/, '.');
