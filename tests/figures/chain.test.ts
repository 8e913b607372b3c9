import { describe, expect, test } from 'vitest';
import { chainFacts, chainRows, trimSentence } from '../../src/figures/stages.ts';
import type { ChainSheet } from '../../src/load/index.ts';

const chain: ChainSheet = {
  links: [
    {
      stage: 'driver',
      gain: 50,
      inputVrms: 0.5,
      outputVrms: 25,
      largestVrms: 50,
      limitedBy: 'cut-off',
      headroomDb: 6.0206,
    },
    {
      stage: 'output',
      gain: 4,
      inputVrms: 25,
      outputVrms: 100,
      largestVrms: 100,
      limitedBy: 'grid current',
      headroomDb: 0,
    },
  ],
  sourceV: 2,
  inputVrms: 1,
  feedbackDb: 6.0206,
  sensitivityVrms: 1,
  sensitivityWithoutFeedbackVrms: 0.5,
  marginDb: 6.0206,
  turnsRatio: 20,
  speakerVrms: 5,
  speakerOhm: 8,
  powerW: 3.125,
  gainDb: 13.98,
  firstToRunOut: 'output',
  explanation: [],
  absent: {},
};

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

test('the rows of a chain go from the source through feedback and stages to the speaker', () => {
  const rows = chainRows(chain).map(({ at, output, headroom }) => [at, output, headroom].map(plain));
  expect(rows).toEqual([
    ['Source', '1.00 V', '6.02 dB'],
    ['Feedback', '500 mV', ''],
    ['driver', '25.0 V', '6.02 dB'],
    ['output', '100 V', '0 dB'],
    ['Speaker, 8.00 Ω', '5.00 V, 3.13 W', ''],
  ]);
});

test('a chain without feedback has neither its row nor a second sensitivity', () => {
  const open = { ...chain, feedbackDb: 0 };
  expect(chainRows(open).map(({ at }) => at)).not.toContain('Feedback');
  expect(chainFacts(open).map(({ name }) => name)).not.toContain('Without feedback');
  expect(chainFacts(chain).map(({ name }) => name)).toContain('Without feedback');
});

describe('the trim between two versions', () => {
  test.each([
    [
      -3.24,
      'this version has 3.24 dB more gain than Heron 1: to compare the two by ear, turn it down by 3.24 dB.',
    ],
    [
      3.24,
      'this version has 3.24 dB less gain than Heron 1: to compare the two by ear, turn the other down by 3.24 dB.',
    ],
    [0.01, 'this version has the gain of Heron 1: no trim is needed.'],
  ])('of %d dB says which to turn down', (trim, expected) => {
    expect(plain(trimSentence(trim, 'Heron 1'))).toContain(expected);
  });
});
