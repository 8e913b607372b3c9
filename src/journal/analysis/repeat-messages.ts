import type { Fault } from '../../problem/index.ts';

/** Every sentence that the journal room says about repeats. */
export const repeatMessages = {
  noCapture: (id: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no capture "${id}" in this log to be repeated.`,
    hint:
      near.length > 0
        ? `Did you mean ${near.join(' or ')}?`
        : known.length > 0
          ? `This log has: ${known.join(', ')}.`
          : 'Declare it under captures: first.',
  }),
  twice: (id: string): Fault => ({
    rule: 'repeat-twice',
    message: `The capture "${id}" stands twice in this list, and a capture does not repeat itself.`,
    hint: 'Remove one of the two.',
  }),
  sameFile: (id: string, other: string): Fault => ({
    rule: 'repeat-twice',
    message: `The captures "${id}" and "${other}" hold the same bytes, so the second is a copy and no repeat.`,
    hint: 'Put the file of the other measurement in its place, or take it out of the list.',
  }),
  nameTaken: (id: string): Fault => ({
    rule: 'duplicate-id',
    message: `A capture of this log is called "${id}" too.`,
    hint: 'Give the repeats another id.',
  }),
  differs: (id: string, first: string, what: string): Fault => ({
    rule: 'repeat-differs',
    message: `The captures "${id}" and "${first}" are not declared alike: they differ in ${what}.`,
    hint: 'Repeats are captures of one thing under the same conditions; take the other one out of the list, or correct its declaration.',
  }),
};
