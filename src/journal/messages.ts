import { type Fault, nearestNames } from '../problem/index.ts';

const orNone = (names: readonly string[], otherwise: string) =>
  names.length > 0 ? `Did you mean ${names.join(' or ')}?` : otherwise;

/** The first names of a list that may be long. */
function listed(names: readonly string[], most = 12): string {
  const more = names.length - most;
  return more > 0 ? `${names.slice(0, most).join(', ')} and ${more} more` : names.join(', ');
}

const itHas = (names: readonly string[]) => (names.length > 0 ? `It has: ${listed(names)}.` : 'It has none.');

/** Every sentence that the journal room says about what a person wrote. */
export const messages = {
  yamlSyntax: (detail: string): Fault => ({
    rule: 'yaml-syntax',
    message: `This is not valid YAML: ${sentence(detail)}`,
    hint: 'Look at the indentation, quotes and colons here; a text with ": " in it needs quotes around it.',
  }),
  yamlTwice: (key: string): Fault => ({
    rule: 'yaml-syntax',
    message: `The key "${key}" stands here for the second time.`,
    hint: 'Remove one of the two.',
  }),
  yamlTab: (): Fault => ({
    rule: 'yaml-syntax',
    message: 'This line is indented with a tab, which YAML does not allow.',
    hint: 'Indent with spaces.',
  }),
  yamlTag: (tag: string): Fault => ({
    rule: 'yaml-syntax',
    message: `The tag "${tag}" is not known; values here are texts, numbers, lists and groups of keys.`,
    hint: 'Remove the tag, or put quotes around a text that begins with an exclamation mark.',
  }),
  yamlDocuments: (): Fault => ({
    rule: 'yaml-syntax',
    message: 'A second YAML document begins here, and only one is read.',
    hint: 'Remove the line of three dashes.',
  }),
  yamlAlias: (name: string): Fault => ({
    rule: 'yaml-syntax',
    message: `The alias "*${name}" has no anchor before it.`,
    hint: `Set the anchor &${name} first, or put quotes around a text that begins with an asterisk.`,
  }),
  yamlAliasCircle: (name: string): Fault => ({
    rule: 'yaml-syntax',
    message: `The alias "*${name}" stands in what it names, so that it has no end.`,
    hint: 'Write the value out.',
  }),
  yamlTooManyAliases: (most: number): Fault => ({
    rule: 'yaml-aliases',
    message: `The aliases here stand for more than ${most} values.`,
    hint: 'Write the values out.',
  }),
  yamlTooDeep: (most: number): Fault => ({
    rule: 'yaml-depth',
    message: `Groups and lists stand in one another here more than ${most} deep, which is more than is read.`,
    hint: 'Look for brackets or braces that are not closed.',
  }),
  yamlTooLong: (most: number): Fault => ({
    rule: 'yaml-size',
    message: `There are more than ${most} keys and values before this place, which is more than is read.`,
    hint: 'Keep measurements in capture files, and long lists of parts in a CSV file that partsFile: names.',
  }),
  yamlMoreFaults: (count: number): Fault => ({
    rule: 'yaml-syntax',
    message: `From here on there are ${count} more faults of this kind.`,
    hint: 'Mend those above first.',
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
  frontmatterToml: (): Fault => ({
    rule: 'frontmatter-language',
    message: 'Frontmatter between lines of plus signs is TOML, which is not read.',
    hint: 'Write the keys in YAML between two lines of three dashes.',
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
  empty: (): Fault => ({
    rule: 'wrong-type',
    message: 'There is no value here.',
    hint: 'Write a value, or remove the key.',
  }),
  wrongType: (expectation: string, found: string): Fault => {
    const fault = { rule: 'wrong-type', message: `${expectation} here, but this is ${found}.` };
    return /^(true|false)$/.test(found) ? { ...fault, hint: 'Put quotes around it if it is a text.' } : fault;
  },
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
  tooLarge: (megabytes: number): Fault => ({
    rule: 'too-large',
    message: `The file is larger than ${megabytes} MB, which is more than a record can be.`,
    hint: 'Keep measurements in capture files and pictures in files of their own.',
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
  deadLink: (): Fault => ({
    rule: 'dead-link',
    message: 'This link leads to a file that does not exist.',
    hint: 'Remove it, or copy the file into its place.',
  }),
  linkCircle: (): Fault => ({
    rule: 'link-circle',
    message: 'This link leads back to a folder that it stands in.',
    hint: 'Remove it.',
  }),
  strayFile: (): Fault => ({
    rule: 'stray-record',
    severity: 'warning',
    message: 'This Markdown file is not at a place where a record is expected, so it would not be published.',
    hint: 'Records live in amplifiers/<amplifier>/, logs/<date>-<slug>/index.md, pages/ and the like.',
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
    message: `This is not valid MDX: ${sentence(detail)}`,
    hint: 'In .mdx a < or { in running text is written \\< or \\{.',
  }),
  tooDeep: (): Fault => ({
    rule: 'prose',
    message: 'The body is nested too deeply to be rendered.',
    hint: 'Take some of the quotes, lists or brackets in one another apart.',
  }),
  dangling: (kind: string, id: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no ${kind} "${id}" in this journal.`,
    hint: orNone(near, known.length > 0 ? `There are: ${listed(known)}.` : `The journal has no ${kind} yet.`),
  }),
  noAmplifier: (id: string): Fault => ({
    rule: 'dangling-reference',
    message: `This record stands in the folder ${id}, which has no index.md to say what the amplifier is.`,
    hint: `Write ${id}/index.md, or move the record into the folder of its amplifier.`,
  }),
  notAnAddress: (name: string): Fault => ({
    rule: 'record-name',
    message: `"${name}" cannot stand in the address of a page.`,
    hint: 'Rename it with at most 120 letters, digits, hyphens, underscores and full stops, for example 2026-02-07-first-sound.',
  }),
  captureName: (name: string): Fault => ({
    rule: 'record-name',
    message: `"${name}" cannot stand in the address of a page.`,
    hint: 'Add id: with a short name such as tone-1w, or rename the file.',
  }),
  wrongFolder: (version: string, amplifier: string): Fault => ({
    rule: 'version-of-another-amplifier',
    message: `The version "${version}" does not belong to the amplifier "${amplifier}".`,
    hint: 'Name a version of that amplifier, or change amplifier: to the one that was measured.',
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
    hint: orNone(nearestNames(name, known), itHas(known)),
  }),
  unknownFigure: (figure: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `The capture has no figure "${figure}".`,
    hint: orNone(near, itHas(known)),
  }),
  figureForm: (text: string, near: readonly string[]): Fault => ({
    rule: 'figure-form',
    message: `"${text}" does not name a capture of this log.`,
    hint: orNone(near, 'Write capture or capture#channel, for example tone-1w#speaker.'),
  }),
  nothingToCompute: (): Fault => ({
    rule: 'nothing-to-compute',
    message: 'The file describes neither stages nor a supply.',
    hint: 'Add stages: or supply: as in a version record.',
  }),
} as const;

/** The first line of a text, closed with a full stop. */
const sentence = (text: string) => (text.split('\n')[0] ?? '').replace(/[.:]?$/, '.');
