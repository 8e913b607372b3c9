import { type Complex, complex, over, plus, scaled } from './complex.ts';

/** One peak of the impedance: parallel resonance of `peakOhm` at `atHz`. */
interface Resonance {
  atHz: number;
  peakOhm: number;
  quality: number;
}

const coilOhm = 5.9;
/** Voice coil: impedance of its lossy inductance at 1 kHz; it grows with the square root of the frequency. */
const coilAt1kHz = 1.5;
/** Cone in the closed box; crossover with the high-frequency unit. */
const resonances: readonly Resonance[] = [
  { atHz: 61, peakOhm: 27, quality: 2.4 },
  { atHz: 1900, peakOhm: 8.5, quality: 0.9 },
];

/** Impedance of the invented two-way loudspeaker, in ohms. */
export function loudspeakerImpedance(hz: number): Complex {
  const lossy = coilAt1kHz * Math.sqrt(hz / 1000);
  return resonances
    .map(({ atHz, peakOhm, quality }) =>
      scaled(over(complex(1), complex(1, quality * (hz / atHz - atHz / hz))), peakOhm),
    )
    .reduce(plus, complex(coilOhm + 0.5 * lossy, 0.5 * lossy));
}
