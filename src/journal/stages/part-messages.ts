import type { Fault } from '../../problem/index.ts';

const listed = (names: readonly string[]) => names.join(', ');
const either = (near: readonly string[], names: readonly string[]) =>
  near.length > 0 ? `Did you mean ${near.join(' or ')}?` : `Known are ${listed(names)}.`;

/** Problems of part records and of what a stage takes from them. */
export const partMessages = {
  noTransformer: (title: string, kind: string): Fault => ({
    rule: 'part-kind',
    message: `${title} is of kind ${kind}, not a transformer.`,
    hint: 'Name the record of a transformer.',
  }),
  noTaps: (title: string): Fault => ({
    rule: 'unknown-tap',
    message: `${title} has one secondary without taps.`,
    hint: 'Leave tap: out.',
  }),
  tapMissing: (title: string, names: readonly string[]): Fault => ({
    rule: 'missing-key',
    message: `${title} has several taps, and the one in use is not stated.`,
    hint: `Add tap: with one of ${listed(names)}.`,
  }),
  unknownTap: (tap: string, near: readonly string[], names: readonly string[]): Fault => ({
    rule: 'unknown-tap',
    message: `The transformer has no tap "${tap}".`,
    hint: either(near, names),
  }),
  speakerMissing: (): Fault => ({
    rule: 'missing-key',
    message: 'The stage has a transformer, but not what is connected to it.',
    hint: 'Add speaker: with a resistance, for example 8 Ω, or with the id of a loudspeaker’s impedance sweep.',
  }),
  transformerMissing: (key: string): Fault => ({
    rule: 'missing-key',
    message: `The stage has ${key}:, but no transformer.`,
    hint: 'Add transformer: with the id of a part record, or state the load at the plate as load:.',
  }),
  anotherScreenTap: (stated: string, title: string, ofPart: string): Fault => ({
    rule: 'screen-tap',
    message: `The stage states a screen tap at ${stated} of the turns, but that of ${title} is at ${ofPart}.`,
    hint: 'Leave tapTurns: out to take the tap of the part record, or correct one of the two.',
  }),
  unknownPart: (id: string, near: readonly string[], ids: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `There is no part "${id}".`,
    hint: ids.length === 0 ? 'Write the record as parts/<name>.md.' : either(near, ids),
  }),
  unknownSpeaker: (written: string, near: readonly string[]): Fault => ({
    rule: 'dangling-reference',
    message: `"${written}" is neither a resistance nor a capture of this journal that can be used.`,
    hint:
      near.length > 0
        ? `Did you mean ${near.join(' or ')}?`
        : 'Write for example 8 Ω, or logs/<log>/<capture> of an impedance sweep.',
  }),
  noSpeakerSweep: (id: string): Fault => ({
    rule: 'speaker',
    message: `${id} is no impedance sweep of a loudspeaker.`,
    hint: 'Name a capture with kind: impedance-sweep and impedanceOf: loudspeaker.',
  }),
  emptySpeakerSweep: (id: string): Fault => ({
    rule: 'speaker',
    message: `The impedance sweep ${id} has fewer than two readings that can be used.`,
    hint: 'Measure the loudspeaker again, or write a resistance.',
  }),
};
