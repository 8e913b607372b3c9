import { sum, tone, whiteNoise } from '../signal/signals.ts';
import { type Coverage, holdsOfHarmonics, holdsOfNoise, meant } from './claims.ts';
import type { Chance, Kind } from './records.ts';

const length = 512;
const harmonics = [1, 0.012, 0.008];

/**
 * The error that a tone makes is bounded, so that intervals hold more often than those of normal errors; and each
 * counts the tone with its full strength, though it hears less of it, the nearer it stands to a whole line away.
 */
const widened: Coverage = [0.955, 0.99];

/** Tones of random phase at multiples of so many cycles, in white noise. */
function withTones(
  record: Float64Array,
  { seed, next }: Chance,
  cycles: number,
  amplitudes: readonly number[],
) {
  const phases = amplitudes.map(() => 2 * Math.PI * next());
  const hum = tone(length, { frequency: cycles / length, amplitudes, phases });
  return sum(record, hum, whiteNoise(length, 0.01, seed));
}

const slow: Kind = {
  length,
  cycles: (share) => 20 + 4 * share,
  amplitudes: [1],
  spoil: (record, chance) => withTones(record, chance, 3 + chance.next(), [0.05, 0.02, 0.03]),
};

/** A tone on either side of a harmonic, as far from it as `from` to `to` cycles per record. */
const beside = (order: number, [from, to]: [number, number]): Kind => ({
  ...slow,
  spoil: (record, chance) => {
    const away = from + (to - from) * chance.next();
    const side = chance.next() < 0.5 ? -1 : 1;
    return withTones(record, chance, order * chance.cycles + side * away, [0.05]);
  },
});

holdsOfHarmonics(
  'hum of three orders below the fundamental',
  { ...slow, amplitudes: harmonics },
  {
    frequency: widened,
    level: widened,
    thd: meant,
    clear: { 2: meant, 3: meant },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('hum of three orders below the fundamental', slow);

holdsOfHarmonics(
  'a tone four times the second harmonic beside it',
  { ...beside(2, [1.2, 4.2]), amplitudes: harmonics },
  {
    frequency: widened,
    level: widened,
    thd: [0.95, 0.965],
    clear: { 3: widened },
    faint: [2, 4, 5, 6, 7, 8, 9, 10],
  },
);

holdsOfNoise('a tone beside the second harmonic’s place', beside(2, [1.2, 8]));

holdsOfHarmonics(
  'a tone beside the fundamental',
  { ...beside(1, [1.2, 7.2]), amplitudes: harmonics },
  {
    frequency: widened,
    level: widened,
    thd: widened,
    clear: { 2: [0.95, 0.975], 3: [0.95, 0.965] },
    faint: [4, 5, 6, 7, 8, 9, 10],
  },
);
