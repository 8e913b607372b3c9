import type { Fault } from '../problem/index.ts';

/** A name with its control characters written out. */
const shown = (name: string) => JSON.stringify(name);

/** Every sentence about the files of a journal: what they are called, how many and how large they are. */
export const fileMessages = {
  nameWithControls: (name: string): Fault => ({
    rule: 'file-name',
    message: `The name ${shown(name)} holds a control character, a backslash or bytes that are no letters, which not every system takes.`,
    hint: 'Rename it with letters, digits, hyphens, underscores and full stops.',
  }),
  nameTwice: (path: string, other: string): Fault => ({
    rule: 'file-name-twice',
    message: `${shown(path)} and ${shown(other)} are one name where capitals or accents are not told apart, and one of the two would be lost there.`,
    hint: 'Rename or remove one of the two.',
  }),
  nameOfDevice: (name: string): Fault => ({
    rule: 'file-name',
    severity: 'warning',
    message: `Windows keeps the name ${shown(name)} for a device, so that this cannot be copied there.`,
    hint: 'Give it another name.',
  }),
  nameNotPortable: (name: string): Fault => ({
    rule: 'file-name',
    severity: 'warning',
    message: `The name ${shown(name)} ends in a full stop or a space, or holds one of < > : " | ? *, so that it cannot be copied to Windows.`,
    hint: 'Rename it with letters, digits, hyphens, underscores and full stops.',
  }),
  tooManyFiles: (most: number): Fault => ({
    rule: 'too-many-files',
    message: `The journal has more than ${most} files, which is more than is looked through; this one is the first that is not.`,
    hint: 'Keep only what is published in the folder of the journal; names that begin with a full stop are not looked at.',
  }),
  hiddenLink: (): Fault => ({
    rule: 'hidden-link',
    message:
      'This link leads to a hidden file or folder, which is no part of the journal and is never published.',
    hint: 'Copy the file into its place.',
  }),
  runsInBrowser: (name: string): Fault => ({
    rule: 'static-code',
    message: `Browsers run ${shown(name)} as a page or script of the site, and a journal without mdx: true holds no code.`,
    hint: 'Write a record or a page in Markdown instead, or set mdx: true in journal.yaml.',
  }),
  takenPath: (path: string): Fault => ({
    rule: 'reserved-file',
    message: `The site has a page or file of its own at ${shown(path)}, and one of the two would be lost.`,
    hint: 'Give the file another name.',
  }),
} as const;
