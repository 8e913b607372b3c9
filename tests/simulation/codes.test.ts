import { quantise, sum, whiteNoise } from '../signal/signals.ts';
import { type Coverage, holdsOfHarmonics, holdsOfNoise, meant } from './claims.ts';
import type { Kind } from './records.ts';

const length = 512;

/**
 * Without noise the rounding of a sine is no random number: for the low orders it is bounded, and so seldom as far off
 * as a normal deviate would be. The interval allows for the place of the constant between two codes, which is not known.
 */
const rounded: Coverage = [0.975, 0.985];

/** A sine over 201 of 256 codes, with noise of so many steps ahead of the converter. */
const inCodes = (noise: number): Kind => ({
  length,
  cycles: (share) => 20 + 4 * share,
  amplitudes: [100.7],
  spoil: (record, { seed, next }) => {
    const place = next();
    const placed = record.map((value) => value + place);
    return quantise(noise === 0 ? placed : sum(placed, whiteNoise(length, noise, seed)), 1);
  },
});

holdsOfHarmonics(
  '8-bit codes without noise',
  { ...inCodes(0), amplitudes: [100.7, 1, 0.6] },
  {
    frequency: rounded,
    level: [0.96, 0.98],
    thd: rounded,
    clear: { 2: rounded, 3: rounded },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('8-bit codes without noise', inCodes(0));

holdsOfHarmonics(
  '8-bit codes, noise of a third of a step',
  { ...inCodes(0.3), amplitudes: [100.7, 1, 0.6] },
  {
    frequency: meant,
    level: meant,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('8-bit codes, noise of a third of a step', inCodes(0.3));
