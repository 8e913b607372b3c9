import type { Fault } from '../../problem/index.ts';

/** Every sentence that the journal room says about decisions and how they refer to each other. */
export const decisionMessages = {
  noNumber: (): Fault => ({
    rule: 'record-name',
    message: 'The file of a decision begins with its number of four digits.',
    hint: 'Rename it, for example to 0001-which-driver.md.',
  }),
  numberTwice: (number: string, other: string): Fault => ({
    rule: 'duplicate-id',
    message: `The number ${number} is taken by ${other}.`,
    hint: 'Give one of the two decisions the next free number.',
  }),
  circle: (chain: readonly string[]): Fault => ({
    rule: 'decision-cycle',
    message: `The decisions replace each other in a circle: ${chain.join(' → ')}.`,
    hint: 'The last one is not replaced by any.',
  }),
} as const;
