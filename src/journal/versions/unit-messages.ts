import { type Fault, nearestNames } from '../../problem/index.ts';

const orElse = (near: readonly string[], otherwise: string) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : otherwise;

/** Every sentence that the journal room says about built units and the limits that they must keep. */
export const unitMessages = {
  serialTwice: (serial: string, other: string): Fault => ({
    rule: 'duplicate-serial',
    message: `The serial number "${serial}" is that of ${other} too.`,
    hint: 'Correct one of the two; letter case does not tell serial numbers apart.',
  }),
  captureTwice: (written: string, other: string): Fault => ({
    rule: 'duplicate-capture',
    message: `"${written}" is a capture of ${other} too, and a capture shows one unit.`,
    hint: 'Name the capture that was taken of this unit.',
  }),
  otherVersion: (capture: string, version: string, expected: string): Fault => ({
    rule: 'version-of-another-unit',
    message: `The capture "${capture}" was taken on ${version}, but this unit is built to ${expected}.`,
    hint: 'Name a capture of this unit, or correct the version here or in the log.',
  }),
  noChannel: (channel: string, known: readonly string[]): Fault => ({
    rule: 'unknown-channel',
    message: `The capture has no channel "${channel}" with figures.`,
    hint: orElse(nearestNames(channel, known), `It has: ${known.join(', ') || 'none'}.`),
  }),
  noLimit: (reading: string, known: readonly string[]): Fault => ({
    rule: 'reading-without-limits',
    severity: 'warning',
    message: `The version states no limit for the reading "${reading}", so it passes and fails nothing.`,
    hint: orElse(
      nearestNames(reading, known),
      'Add it to limits: of the version, or add least: or most: here.',
    ),
  }),
  unit: (found: string, wanted: string): Fault => ({
    rule: 'limit',
    message: `A value in ${unitName(found)} cannot be held against a limit in ${unitName(wanted)}.`,
    hint: `Write the value in ${unitName(wanted)}.`,
  }),
  unknownFigure: (figure: string, near: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `There is no figure "${figure}".`,
    hint: orElse(
      near,
      'The methods page lists the figures and their ids; for a reading of your own write reading:.',
    ),
  }),
  whichChannel: (figure: string, unit: string, channels: readonly string[]): Fault => ({
    rule: 'limit',
    message: `Several channels of a capture of ${unit} have the figure "${figure}".`,
    hint: `Add of: with one of ${channels.join(', ')}.`,
  }),
} as const;

const unitName = (unit: string) => (unit === '1' ? 'per cent or as a plain number' : unit);
