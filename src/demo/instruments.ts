import { type Unrest, unrestOf } from './noise.ts';
import { normalSource } from './random.ts';
import { rmsOf, sampled, type Tone } from './tone.ts';

/** A record of one channel. */
export interface Recording {
  tone: Tone;
  unrest: Unrest;
  count: number;
  rateHz: number;
  /** Time of the first sample after a crest of the stimulus. */
  startS: number;
  seed: number;
}

/** A converter: codes of `stepV`, from `-codes` to `codes - 1`, with its errors. */
export interface Converter {
  stepV: number;
  codes: number;
  gain: number;
  /** Curvature: share of the square of the reading re full scale. */
  bow: number;
  /** Own noise in steps, rms. */
  noiseSteps: number;
}

/** What the converter says: whole codes, held at the ends of its range. */
export function converted(recording: Recording, converter: Converter): Float64Array {
  const normal = normalSource(recording.seed);
  const { tone, unrest, count, rateHz, startS } = recording;
  const rest = unrestOf(unrest, count, rateHz, normal);
  return sampled(tone, count, rateHz, startS).map((volts, i) => {
    const code = ((volts + (rest[i] ?? 0)) * converter.gain) / converter.stepV;
    const bent = code + (converter.bow * code * code) / converter.codes + converter.noiseSteps * normal();
    return Math.min(Math.max(Math.round(bent), -converter.codes), converter.codes - 1);
  });
}

/** A meter that reads a level and the harmonics of a tone one by one. */
export interface Meter {
  gain: number;
  /** Spread of a level reading, as a share of it. */
  spread: number;
  /** Noise in the bandwidth of one harmonic, and in the audio band, in volts rms. */
  lineV: number;
  bandV: number;
}

/** Level in volts rms; harmonics by order, their sum and the sum with noise as ratios re the fundamental. */
interface Reading {
  levelV: number;
  harmonic: (order: number) => number;
  thd: number;
  thdPlusNoise: number;
}

/** Reads a tone with a meter. Each harmonic is read together with the noise that falls into its bandwidth. */
export function read(tone: Tone, meter: Meter, normal: () => number): Reading {
  const fundamental = rmsOf(tone, 1);
  const side = () => (meter.lineV / Math.SQRT2) * normal();
  const ratios = Array.from(
    { length: 9 },
    (_, i) => Math.hypot(rmsOf(tone, i + 2) + side(), side()) / fundamental,
  );
  return {
    levelV: fundamental * meter.gain * (1 + meter.spread * normal()),
    harmonic: (order) => ratios[order - 2] ?? 0,
    thd: Math.hypot(...ratios),
    thdPlusNoise: Math.hypot(...ratios, meter.bandV / fundamental),
  };
}
