import type { Fault } from '../../problem/index.ts';

/** Every sentence that the journal room says about listening sessions and their keys. */
export const listeningMessages = {
  keyHash: (file: string): Fault => ({
    rule: 'listening-key',
    message: `The key file ${file} does not have this SHA-256: it is not the file that was sealed, or was changed.`,
    hint: 'Put back the key file and the hash as "new listening" wrote them.',
  }),
  keyUnsealed: (file: string): Fault => ({
    rule: 'listening-key',
    message: `The record has the key file ${file} beside it, but not the hash that it was sealed by.`,
    hint: 'Add keySha256: as it stands in the last line of the trial sheet.',
  }),
  keyMissing: (file: string): Fault => ({
    rule: 'listening-key',
    severity: 'warning',
    message:
      'The session was held, but its key file is not beside the record, so that the order cannot be verified.',
    hint: `Put the key file there as ${file}.`,
  }),
  keyOpen: (file: string): Fault => ({
    rule: 'listening-key',
    severity: 'warning',
    message: `The key file ${file} lies beside the record and no trial is on record, so that the order is no longer sealed.`,
    hint: 'Keep the key file elsewhere until the session was held; draw a new order with "new listening" if it was read.',
  }),
  keyOfOther: (session: string): Fault => ({
    rule: 'listening-key',
    message: `The key file was drawn for the session ${session}.`,
    hint: 'Each session has a key of its own; the name of the record belongs to it.',
  }),
  keyTask: (task: string): Fault => ({
    rule: 'listening-key',
    message: `The key file was drawn for the task "${task}".`,
    hint: `Write task: ${task}.`,
  }),
  keyTrials: (planned: number): Fault => ({
    rule: 'listening-key',
    message: `The key file holds ${planned} trials, and these are not as many.`,
    hint: `Write plannedTrials: ${planned}, which is the number that was sealed.`,
  }),
  keyNoTrial: (planned: number): Fault => ({
    rule: 'listening-key',
    message: `The key file ends after ${planned} trials, so that this one was not drawn.`,
    hint: 'Trials that were added have no sealed order; hold them as a session of their own.',
  }),
  keyPlayed: (trial: number, played: string): Fault => ({
    rule: 'listening-key',
    message: `By the key file, trial ${trial} played "${played}".`,
    hint: `Write played: ${played}, and look whether the trials stand in their order.`,
  }),
  notASweep: (capture: string): Fault => ({
    rule: 'listening-capture',
    message: `The capture ${capture} is no frequency sweep with distortion, so that it has no bands to stand beside what was heard.`,
    hint: 'Name a frequency sweep, or leave capture: out.',
  }),
  whichChannel: (capture: string, channels: readonly string[]): Fault => ({
    rule: 'listening-capture',
    message: `The capture ${capture} has no such channel with distortion, or more than one and none is named.`,
    hint: `Write ${channels.map((channel) => `${capture}#${channel}`).join(' or ')}.`,
  }),
} as const;
