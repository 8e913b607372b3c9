import type { Fault } from '../../problem/index.ts';

const orElse = (near: readonly string[], otherwise: string) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : otherwise;

const itHas = (known: readonly string[]) =>
  known.length > 0 ? `It has: ${known.slice(0, 12).join(', ')}.` : 'It has none.';

/** Every sentence that the journal room says about claims, and about figures that are named in prose. */
export const claimMessages = {
  noSource: (name: string, near: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no capture, list of repeats or version "${name}" in this journal.`,
    hint: orElse(
      near,
      'Write capture#channel for one of this log, logs/<log>/<capture>#channel for another, or <version>#<stage> for a load sheet.',
    ),
  }),
  noPart: (part: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-channel',
    message: `There is no channel or stage "${part}" with figures here.`,
    hint: orElse(near, itHas(known)),
  }),
  whichPart: (source: string, parts: readonly string[]): Fault => ({
    rule: 'figure-form',
    message: `Several channels or stages of "${source}" have this figure.`,
    hint: `Name one of them behind a #: ${parts.join(', ')}.`,
  }),
  noFigure: (figure: string, source: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `"${source}" has no figure "${figure}".`,
    hint: orElse(near, itHas(known)),
  }),
  noValue: (figure: string, reason: string): Fault => ({
    rule: 'figure-absent',
    severity: 'warning',
    message: `The figure "${figure}" has no value here, and the text prints the reason: ${reason}`,
    hint: 'Name another capture, or say it in words.',
  }),
  noSweep: (source: string, axis: string): Fault => ({
    rule: 'claim',
    message: `"${source}" is no sweep over ${axis}, so nothing can be read from it at a ${axis}.`,
    hint: 'Name a sweep, or leave the place out.',
  }),
  notInSweep: (figure: string, source: string, known: readonly string[]): Fault => ({
    rule: 'unknown-figure',
    message: `"${source}" has no column for the figure "${figure}".`,
    hint: `From a sweep can be read: ${known.join(', ') || 'nothing'}.`,
  }),
  unit: (found: string, wanted: string): Fault => ({
    rule: 'claim',
    message: `A value in ${unitName(found)} cannot stand beside this figure, which is in ${unitName(wanted)}.`,
    hint: `Write the value in ${unitName(wanted)}.`,
  }),
  margin: (): Fault => ({
    rule: 'claim',
    message: 'This margin does not go with the figure.',
    hint: 'Figures in decibels take decibels; others take decibels, a share in per cent, or an amount in their own unit.',
  }),
  late: (date: string, measured: string): Fault => ({
    rule: 'expectation-late',
    severity: 'warning',
    message: `This expectation is dated ${date}, but what it is about was measured on ${measured}.`,
    hint: 'An expectation is written before measuring; correct its date, or make it evidence of a decision.',
  }),
  broken: (says: string, outcome: string, found: string, strict: boolean): Fault => ({
    rule: 'evidence',
    severity: strict ? 'error' : 'warning',
    message: `The evidence "${says}" is not borne out (${outcome}). ${found}`,
    hint: 'Correct the claim or what it rests on, or take the decision anew and write replaced by or open as its state.',
  }),
} as const;

const unitName = (unit: string) => (unit === '1' || unit === '' ? 'per cent or as a plain number' : unit);
