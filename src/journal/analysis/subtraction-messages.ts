import type { Fault } from '../../problem/index.ts';

/** Every sentence that the journal room says about subtracting what a circuit passes on. */
export const subtractionMessages = {
  noTransfer: (): Fault => ({
    rule: 'no-stimulus-and-response',
    message: 'A response sweep is named, but this capture gives no gain from a stimulus to a response.',
    hint: 'State role: stimulus and role: response at two channels of a waveform that hold the same fundamental.',
  }),
  notASweep: (id: string, kind: string): Fault => ({
    rule: 'not-a-response-sweep',
    message: `The capture "${id}" is a ${kind} that gives no level with phase against frequency.`,
    hint: 'Name a frequency sweep from the stimulus to the response of this capture, with a column of phase.',
  }),
  notReached: (id: string): Fault => ({
    rule: 'outside-sweep',
    message: `The response sweep "${id}" does not reach the fundamental of this capture.`,
    hint: 'Sweep from below the fundamental to its highest harmonic.',
  }),
};
