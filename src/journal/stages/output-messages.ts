import type { Fault } from '../../problem/index.ts';
import { quantityText } from '../../quantity/index.ts';

const orNone = (names: readonly string[], otherwise: string) =>
  names.length > 0 ? `Did you mean ${names.join(' or ')}?` : otherwise;

/** Every sentence that the journal room says about output impedance. */
export const outputMessages = {
  noCapture: (id: string, near: readonly string[], known: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no capture "${id}" in this log or journal.`,
    hint: orNone(
      near,
      `This log has: ${known.join(', ')}. A capture of another log is named with its whole id.`,
    ),
  }),
  notAnImpedance: (id: string, kind: string): Fault => ({
    rule: 'not-an-impedance-sweep',
    message: `The capture "${id}" is a ${kind}, and a loudspeaker is given by an impedance sweep.`,
    hint: 'Name a capture of kind impedance-sweep, best with phase.',
  }),
  noOutputImpedance: (): Fault => ({
    rule: 'no-output-impedance',
    message: 'A loudspeaker is named, but this capture gives no output impedance to put it on.',
    hint: 'Add load: to two columns of a frequency sweep, otherLoad: with the id of a second sweep, or impedanceOf: amplifier to an impedance sweep.',
  }),
  twoLoads: (count: number): Fault => ({
    rule: 'two-loads-needed',
    message: `Output impedance is found from two channels with a load; here ${count === 1 ? 'one has' : `${count} have`} one.`,
    hint: 'State load: at exactly two columns, for example load: 8 Ω and load: 4 Ω.',
  }),
  loadsMissing: (id: string): Fault => ({
    rule: 'two-loads-needed',
    message: `Output impedance from this capture and "${id}" needs two frequency sweeps of one channel, each with its load.`,
    hint: 'State load: at both captures, for example load: 8 Ω and load: 4 Ω.',
  }),
  sameLoad: (ohm: number): Fault => ({
    rule: 'two-loads-needed',
    message: `Both loads are ${quantityText(ohm, 'Ω')}, and from equal loads no output impedance can be found.`,
    hint: 'Measure once more into another load, at the same drive.',
  }),
};
