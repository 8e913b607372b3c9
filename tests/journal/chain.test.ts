import { describe, expect, test } from 'vitest';
import { openLoadFile } from '../../src/journal/index.ts';
import { problemText, versionWith, writeFiles } from '../support/journal.ts';

const stages = `stages:
  - { id: input, topology: resistance-coupled, device: 12AX7, connection: triode, bias: { cathodeResistor: 1.5 kΩ }, plateResistor: 100 kΩ, nextGridLeak: 470 kΩ, couplingCapacitor: 100 nF, bypassCapacitor: 100 µF }
  - { id: splitter, topology: split-load, device: 12AU7, bias: { resistor: 1 kΩ }, plateResistor: 22 kΩ, cathodeResistor: 21 kΩ }
  - { id: pair, topology: long-tailed, device: 12AU7, bias: { gridVoltage: 0 V }, plateResistor: 47 kΩ, otherPlateResistor: 51 kΩ, tail: { resistor: 33 kΩ, supply: -150 V } }
  - { id: follower, topology: cathode-follower, device: 12AU7, bias: { gridVoltage: 100 V }, cathodeResistor: 22 kΩ }
  - { id: output, topology: single-ended, device: 2A3, connection: triode, plate: 250 V, bias: { cathodeResistor: 750 Ω }, load: 2.5 kΩ }
supply: { plate: 300 V, reservoir: [{ capacitance: 47 µF, bleeder: 220 kΩ }] }
`;

async function opened(name: string, source: string) {
  const { sheet, problems } = await openLoadFile(writeFiles({ [name]: source }), name);
  return { sheet, problems: problems.map(problemText).join('\n').replaceAll('\u00a0', ' ') };
}

const described =
  'chain: { source: { level: 2 V, impedance: 600 Ω }, inputResistance: 47 kΩ, feedback: 6 dB, speaker: 8 Ω }\n';

test('a chain runs through every stage of a file in its order', async () => {
  const { sheet, problems } = await opened('amp.yaml', stages + described);
  expect(problems).toBe('');
  expect(sheet?.chain?.links.map(({ stage }) => stage)).toEqual([
    'input',
    'splitter',
    'pair',
    'follower',
    'output',
  ]);
  expect(sheet?.chain).toMatchObject({ feedbackDb: 6, speakerOhm: 8, sourceV: 2 });
});

test('a version lends its rated load to the chain', async () => {
  const { sheet } = await opened(
    'v1.md',
    versionWith(`ratedLoad: 4 Ω\n${stages}chain: { source: { level: 1 V } }\n`),
  );
  expect(sheet?.chain?.speakerOhm).toBe(4);
});

describe('a fault of stages and chain stands at its key', () => {
  test.each<[string, string, RegExp]>([
    ['feedback without a unit', described.replace('6 dB', '6'), /:8:\d+ .*feedback/],
    ['feedback in dBV', described.replace('6 dB', '6 dBV'), /:8:\d+ .*feedback/],
    ['too much feedback', described.replace('6 dB', '90 dB'), /:8:\d+ .*out-of-range/],
    ['no level', 'chain: { source: { impedance: 600 Ω } }\n', /:8:\d+ /],
    ['no speaker', described.replace(', speaker: 8 Ω', ''), /:8:\d+ .*missing-value/],
    ['a chain key of no meaning', described.replace('speaker:', 'speakers:'), /:8:\d+ .*unknown-key/],
  ])('%s', async (_, chain, expected) => {
    expect((await opened('amp.yaml', stages + chain)).problems).toMatch(expected);
  });

  test.each<[string, string, string, RegExp]>([
    [
      'two tails',
      'tail: { resistor: 33 kΩ, supply: -150 V }',
      'tail: { resistor: 33 kΩ, current: 2 mA }',
      /:4:\d+ .*tail/,
    ],
    [
      'two biases',
      'bias: { resistor: 1 kΩ }',
      'bias: { resistor: 1 kΩ, gridVoltage: 90 V }',
      /:3:\d+ .*bias/,
    ],
    [
      'a tail that starves',
      'resistor: 33 kΩ, supply: -150 V',
      'current: 900 mA',
      /:4:\d+ .*no-operating-point/,
    ],
    [
      'an unknown key of a splitter',
      'cathodeResistor: 21 kΩ',
      'cathodeResistor: 21 kΩ, drive: 2 V',
      /:3:\d+ /,
    ],
  ])('%s', async (_, good, bad, expected) => {
    expect(stages).toContain(good);
    expect((await opened('amp.yaml', stages.replace(good, bad))).problems).toMatch(expected);
  });
});
