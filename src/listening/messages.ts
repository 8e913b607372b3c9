import type { Fault } from '../problem/index.ts';

/** Every sentence that the listening room says about what a person wrote. */
export const messages = {
  keyLine: (): Fault => ({
    rule: 'listening-key',
    message: 'This line does not belong in a key file.',
    hint: 'Put the key file back as "new listening" wrote it; a changed key no longer proves anything.',
  }),
  keyLength: (most: number): Fault => ({
    rule: 'listening-key',
    message: `A key file holds the order of 1 to ${most} trials.`,
    hint: 'Put the key file back as "new listening" wrote it.',
  }),
} as const;
