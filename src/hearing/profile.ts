import type { ChannelSummary, TwoToneChannelSummary } from '../signal/index.ts';
import { matched, type Partial } from './partial.ts';
import { transposition } from './pitch.ts';

/** Nothing is played above: few hear it, and tweeters need not carry it. */
export const highestPlayedHz = 20_000;

/** A line that was measured, ready to be played: level and phase re the tones. */
interface MeasuredLine {
  name: string;
  frequencyHz: number;
  /** Peak re the tone that levels are referred to. */
  ratio: number;
  phase: number;
  isDetected: boolean;
  /** Another line may have been folded onto it by sampling. */
  isSpoilt: boolean;
}

/** What is heard of one channel: its tones alone, and with the lines that were measured beside them. */
export interface Profile {
  tonesHz: number[];
  /** Tones as they are played. */
  playedHz: number[];
  pure: Partial[];
  distorted: Partial[];
  /** Names of the lines that are played besides the tones. */
  played: string[];
  /** Names of the lines that are not, by the reason. */
  undetected: string[];
  spoilt: string[];
  tooHigh: string[];
}

/** A channel without anything to play: why. */
export interface NotHeard {
  absent: 'no tone' | 'tones too far apart' | 'no line';
}

/** The harmonics of a waveform's channel as partials. Noise, hum and everything between the harmonics are left out. */
export function harmonicProfile({
  fundamental,
  harmonics,
}: Pick<ChannelSummary, 'fundamental' | 'harmonics'>): Profile | NotHeard {
  if (!fundamental) return { absent: 'no tone' };
  const { frequencyHz } = fundamental;
  const lines = harmonics.map(
    ({ order, ratio, relativePhaseDeg, detected, foldedOrders }): MeasuredLine => ({
      name: String(order),
      frequencyHz: order * frequencyHz,
      ratio,
      phase: radians(relativePhaseDeg),
      isDetected: detected,
      isSpoilt: foldedOrders !== undefined,
    }),
  );
  return profileOf([{ frequencyHz, amplitude: 1, phase: 0 }], lines);
}

/** Two tones with the lines of both and of each alone as partials; levels are re the upper tone. */
export function twoToneProfile({
  tones,
  products,
  harmonics,
}: Pick<TwoToneChannelSummary, 'tones' | 'products' | 'harmonics'>): Profile | NotHeard {
  if (!tones) return { absent: 'no tone' };
  const lines = [...products, ...harmonics].map(
    ({ name, frequencyHz, ratio, relativePhaseDeg, detected }): MeasuredLine => ({
      ...{ name, frequencyHz, ratio },
      phase: radians(relativePhaseDeg),
      isDetected: detected,
      isSpoilt: false,
    }),
  );
  return profileOf(
    [
      { frequencyHz: tones.lower.frequencyHz, amplitude: tones.levelRatio, phase: 0 },
      { frequencyHz: tones.upper.frequencyHz, amplitude: 1, phase: 0 },
    ],
    lines,
  );
}

function profileOf(tones: readonly Partial[], lines: readonly MeasuredLine[]): Profile | NotHeard {
  const tonesHz = tones.map(({ frequencyHz }) => frequencyHz);
  const factor = transposition(tonesHz);
  if (factor === null) return { absent: 'tones too far apart' };
  const fits = ({ frequencyHz }: MeasuredLine) => frequencyHz * factor <= highestPlayedHz;
  const told = lines.filter(({ isDetected, isSpoilt }) => isDetected && !isSpoilt);
  const played = told.filter(fits);
  if (played.length === 0) return { absent: 'no line' };
  const transposed = (partial: Partial) => ({ ...partial, frequencyHz: partial.frequencyHz * factor });
  const partials = played.map(({ frequencyHz, ratio, phase }) => ({ frequencyHz, amplitude: ratio, phase }));
  return {
    tonesHz,
    playedHz: tonesHz.map((hertz) => hertz * factor),
    pure: matched(tones.map(transposed)),
    distorted: matched([...tones, ...partials].map(transposed)),
    played: names(played),
    undetected: names(lines.filter(({ isDetected, isSpoilt }) => !isDetected && !isSpoilt)),
    spoilt: names(lines.filter(({ isSpoilt }) => isSpoilt)),
    tooHigh: names(told.filter((line) => !fits(line))),
  };
}

const names = (lines: readonly MeasuredLine[]) => lines.map(({ name }) => name);
const radians = (degrees: number) => (degrees * Math.PI) / 180;
