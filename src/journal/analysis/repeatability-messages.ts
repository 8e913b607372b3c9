import type { Fault } from '../../problem/index.ts';

/** Every sentence that the journal room says about declared repeatabilities. */
export const repeatabilityMessages = {
  noCapture: (id: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no capture "${id}" in this log of which a repeatability could be declared.`,
    hint: near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `This log has: ${known.join(', ')}.`,
  }),
  noFigure: (id: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `None of the captures that this is declared for gives a figure "${id}".`,
    hint:
      near.length > 0
        ? `Did you mean ${near.join(' or ')}?`
        : `They give: ${known.length > 0 ? known.join(', ') : 'no figures'}.`,
  }),
  twice: (id: string, capture: string): Fault => ({
    rule: 'repeatability-twice',
    message: `A repeatability of "${id}" is declared for the capture "${capture}" already.`,
    hint: 'Keep one of the two, or say with of: which captures each holds for.',
  }),
  unit: (id: string, unit: string | null): Fault => ({
    rule: 'repeatability-unit',
    message: `The figure "${id}" cannot scatter by an amount in this unit.`,
    hint:
      unit === null
        ? 'Write a share of its value, for example 3 %.'
        : unit === 'dB' || unit === '°'
          ? `Write an amount in ${unit}.`
          : `Write an amount in ${unit}, or a share of its value, for example 3 %.`,
  }),
};
