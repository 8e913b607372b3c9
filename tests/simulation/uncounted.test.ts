import { sum, whiteNoise } from '../signal/signals.ts';
import { holdsOfHarmonics, holdsOfNoise, meant } from './claims.ts';
import type { Kind } from './records.ts';

const length = 512;
/** Orders 11 to 15 are there, and stronger than noise, but only orders up to the tenth are counted. */
const beyond = [0.01, 0.008, 0.006, 0.005, 0.004];
const none = (orders: number) => Array.from({ length: orders }, () => 0);

const pure: Kind = {
  length,
  cycles: (share) => 12 + 3 * share,
  amplitudes: [1, ...none(9), ...beyond],
  spoil: (record, { seed }) => sum(record, whiteNoise(length, 0.003, seed)),
};

holdsOfHarmonics(
  'harmonics beyond those counted',
  { ...pure, amplitudes: [1, 0.012, 0.008, ...none(7), ...beyond] },
  {
    frequency: meant,
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('harmonics beyond those counted', pure);
