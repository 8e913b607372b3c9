import { type Driver, driven } from './driver.ts';
import { atSpeaker, type OutputStage } from './output-stage.ts';
import { stimulusFor } from './solve.ts';
import { cosineTone, rmsOf, type Tone } from './tone.ts';
import { type TubeLaw, triodeAtRest } from './tubes.ts';

/** The three places of the amplifier that a probe reaches. */
export interface Probed {
  input: Tone;
  grid: Tone;
  speaker: Tone;
}

const tube2A3: TubeLaw = { mu: 4.2, exponent: 1.5, perveance: 9.35e-4, softV: 6 };
const tube12AX7: TubeLaw = { mu: 98, exponent: 1.45, perveance: 1.9e-3, softV: 0.5 };
const tube12AT7: TubeLaw = { mu: 58, exponent: 1.45, perveance: 3.6e-3, softV: 1.35 };

const output: OutputStage = {
  tube: tube2A3,
  rest: triodeAtRest(tube2A3, 295, 0, 750),
  loadOhm: 2500,
  primaryH: 14,
  leakageH: 0.018,
  standingFlux: 0.8,
  bendingFlux: 4,
  ratio: 0.955 * Math.sqrt(8 / 2500),
};

const drivers: Record<'v1' | 'v2', Driver> = {
  v1: {
    tube: tube12AX7,
    supplyV: 300,
    plateOhm: 100e3,
    cathodeOhm: 1500,
    couplingF: 0.1e-6,
    leakOhm: 150e3,
    inputF: 110e-12,
  },
  v2: {
    tube: tube12AT7,
    supplyV: 300,
    plateOhm: 47e3,
    cathodeOhm: 680,
    couplingF: 0.1e-6,
    leakOhm: 150e3,
    inputF: 110e-12,
  },
};

/** Heron with one of its two drivers, a pure tone of `inputRms` volts at its input. */
export function heron(version: 'v1' | 'v2', frequencyHz: number, inputRms: number): Probed {
  const input = cosineTone(frequencyHz, inputRms * Math.SQRT2);
  const grid = driven(drivers[version], input);
  return { input, grid, speaker: atSpeaker(output, grid) };
}

/** What arrives at the speaker of a pure tone of `gridRms` volts at the grid of the output tube. */
export function heronFromGrid(frequencyHz: number, gridRms: number): Tone {
  return atSpeaker(output, cosineTone(frequencyHz, gridRms * Math.SQRT2));
}

/** The same at a stated fundamental voltage at the speaker. */
export function heronAt(version: 'v1' | 'v2', frequencyHz: number, speakerRms: number): Probed {
  const gain = 10;
  const reach = (scaledRms: number) => rmsOf(heron(version, frequencyHz, scaledRms / gain).speaker, 1);
  return heron(version, frequencyHz, stimulusFor(speakerRms, reach) / gain);
}
