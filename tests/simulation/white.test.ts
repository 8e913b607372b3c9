import { sum, whiteNoise } from '../signal/signals.ts';
import { holdsOfHarmonics, holdsOfNoise, meant } from './claims.ts';
import type { Kind } from './records.ts';

const sigma = 0.01;
const length = 512;
/** Standard deviation of one component of a harmonic re the fundamental: σ·√(2/N). */
const unit = sigma * Math.sqrt(2 / length);

const pure: Kind = {
  length,
  cycles: (share) => 20 + 4 * share,
  amplitudes: [1],
  spoil: (record, { seed }) => sum(record, whiteNoise(length, sigma, seed)),
};

/** The second and third are clear; the fifth is as large as its uncertainty, the sixth twice as large. */
const mixed = [1, 20 * unit, 10 * unit, 0, unit, 2 * unit];

holdsOfHarmonics(
  'white noise',
  { ...pure, amplitudes: mixed },
  {
    frequency: meant,
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfHarmonics(
  'white noise, harmonics no larger than it',
  { ...pure, amplitudes: [1, unit, 2 * unit, unit] },
  {
    frequency: meant,
    level: meant,
    thd: [0.95, 1],
    clear: {},
    faint: [2, 3, 4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('white noise', pure);

holdsOfHarmonics(
  'white noise, five cycles',
  { ...pure, cycles: (share) => 5 + share, amplitudes: mixed },
  {
    frequency: meant,
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

/** These orders add a quarter to what the record knows of the frequency, for which no credit is taken. */
holdsOfHarmonics(
  'white noise, harmonics of 20 and 10 %',
  { ...pure, amplitudes: [1, 0.2, 0.1] },
  {
    frequency: [0.965, 0.98],
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('white noise, little more than two cycles', {
  ...pure,
  cycles: (share) => 2.05 + 0.6 * share,
});
