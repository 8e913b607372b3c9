import type { Fault } from '../../problem/index.ts';

/** Wording of problems with what is published beside the pages; each message is full sentences without a position. */
export const publishMessages = {
  reserved: (name: string, other?: string): Fault => ({
    rule: 'reserved-file',
    message: `The site writes a file of its own called ${name} in this place, and one of the two would be lost.`,
    hint:
      other === undefined
        ? 'Give the file another name.'
        : `Give the file another name, for example ${other}.`,
  }),
  sealedOrder: (): Fault => ({
    rule: 'sealed-order',
    message: 'This file holds the order of a listening session, and the site would publish it.',
    hint: 'Keep it outside the folder static, and the key file beside its record once the session was held.',
  }),
  tagWithoutName: (tag: string): Fault => ({
    rule: 'tag-address',
    message: `The tag "${tag}" has no letter or digit that could stand in the address of its page.`,
    hint: 'Write it in words.',
  }),
  tagTwice: (tag: string): Fault => ({
    rule: 'tag-twice',
    message: `The tag "${tag}" stands in this log already.`,
    hint: 'Remove one of the two.',
  }),
  tagSpelling: (tag: string, known: string, log: string): Fault => ({
    rule: 'tag-spelling',
    message: `The tag "${tag}" is written "${known}" in ${log}; both lead to one page, which is called as it is there.`,
    hint: `Write it the same way everywhere, for example ${known}.`,
  }),
} as const;
