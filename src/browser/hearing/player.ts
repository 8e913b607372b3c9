import type { Partial } from '../../hearing/partial.ts';
import { gainOf } from '../../hearing/volume.ts';
import { type Sound, soundOf } from './sound.ts';

/** Seconds over which a sound comes and goes, so that it does not click. */
const comes = 0.08;
const goes = 0.03;

/** Plays one sound at a time, at a volume. */
export class Player {
  readonly #context: AudioContext;
  readonly #master: GainNode;
  #playing: Sound | null = null;

  constructor(decibels: number) {
    this.#context = new AudioContext();
    this.#master = this.#context.createGain();
    this.#master.gain.value = gainOf(decibels);
    this.#master.connect(this.#context.destination);
  }

  /** Begins a sound in the place of what is playing; how many partials are above what the device can play. */
  play(partials: readonly Partial[]): number {
    this.stop();
    const sound = soundOf(this.#context, partials);
    const { currentTime } = this.#context;
    sound.output.connect(this.#master);
    sound.output.gain.setValueAtTime(0, currentTime);
    sound.output.gain.linearRampToValueAtTime(1, currentTime + comes);
    sound.start(currentTime);
    void this.#context.resume();
    this.#playing = sound;
    return partials.length - sound.sounding;
  }

  stop(): void {
    if (!this.#playing) return;
    const { output, stop } = this.#playing;
    const { currentTime } = this.#context;
    output.gain.cancelScheduledValues(currentTime);
    output.gain.setTargetAtTime(0, currentTime, goes / 3);
    stop(currentTime + 2 * goes);
    this.#playing = null;
  }

  turnTo(decibels: number): void {
    this.#master.gain.setTargetAtTime(gainOf(decibels), this.#context.currentTime, comes / 4);
  }

  /** Highest frequency that the device plays. */
  get highestHz(): number {
    return this.#context.sampleRate / 2;
  }
}
