import { pinkNoise, sum } from '../signal/signals.ts';
import { type Coverage, holdsOfHarmonics, holdsOfNoise, meant } from './claims.ts';
import type { Kind } from './records.ts';

const length = 512;

/**
 * The median of exponential lines whose means fall as 1/f, taken evenly about a frequency from 0 to twice that, is 15 %
 * above ln 2 times the density there: (1 − e^(−2m))/(2m) = ½ for m = 0.797. From 0.2 to 1.8 times it is 8 %.
 */
const wholeReach: Coverage = [0.95, 0.97];
const mostReach: Coverage = [0.95, 0.96];

const pure: Kind = {
  length,
  cycles: (share) => 20 + 4 * share,
  amplitudes: [1],
  spoil: (record, { seed }) => sum(record, pinkNoise(length, 0.003, seed)),
};

holdsOfHarmonics(
  '1/f noise',
  { ...pure, amplitudes: [1, 0.012, 0.008] },
  {
    frequency: mostReach,
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('1/f noise', pure);

holdsOfHarmonics(
  '1/f noise, five cycles',
  { ...pure, cycles: (share) => 5 + share, amplitudes: [1, 0.02, 0.012] },
  {
    frequency: meant,
    level: meant,
    thd: wholeReach,
    clear: { 2: wholeReach, 3: wholeReach },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);
