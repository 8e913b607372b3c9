import type { Fault } from '../../problem/index.ts';

interface FaintColour {
  text: string;
  contrast: number;
  appearance: 'light' | 'dark';
  /** A colour that would do. */
  shade: string;
}

/** A contrast as it may be stated: never rounded up to a limit that it misses. */
const cut = (contrast: number) => (Math.floor(contrast * 100) / 100).toFixed(2);

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
  noColour: (text: string): Fault => ({
    rule: 'colour',
    message: `"${text}" is not a colour as it is written here.`,
    hint: 'Write # and six digits from 0 to f in quotes, two each for red, green and blue: "#0f5a56".',
  }),
  faintColour: ({ text, contrast, appearance, shade }: FaintColour): Fault => ({
    rule: 'colour-contrast',
    message: `Text in ${text} would have a contrast of ${cut(contrast)}:1 on ${appearance} paper; 4.5:1 is the least that WCAG 2.2 asks for (1.4.3).`,
    hint: `The nearest ${appearance === 'light' ? 'darker' : 'lighter'} shade that does is "${shade}".`,
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
  tagTooLong: (found: number, most: number): Fault => ({
    rule: 'tag-address',
    message: `This tag has ${found} characters, and at most ${most} can stand in the address of its page.`,
    hint: 'Put it in a few words.',
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
