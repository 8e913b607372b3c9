import type { Partial } from '../../hearing/partial.ts';

/** A sound made of cosines: switched on and off through its output's gain. */
export interface Sound {
  output: GainNode;
  /** Partials that the device's sampling rate allows; the others are not played. */
  sounding: number;
  start(at: number): void;
  stop(at: number): void;
}

/**
 * One oscillator for each partial, all starting together, joined in one gain. A periodic wave of one term without
 * normalisation has exactly the amplitude and the phase that are asked for.
 * @source W3C Recommendation Web Audio API (17 June 2021), 1.27, PeriodicWave: x(t) = a·cos 2πft + b·sin 2πft with a
 * the real and b the imaginary term
 */
export function soundOf(context: BaseAudioContext, partials: readonly Partial[]): Sound {
  const output = context.createGain();
  const oscillators = partials
    .filter(({ frequencyHz }) => frequencyHz < context.sampleRate / 2)
    .map((partial) => oscillatorOf(context, partial));
  for (const oscillator of oscillators) oscillator.connect(output);
  return {
    output,
    sounding: oscillators.length,
    start: (at) => oscillators.forEach((oscillator) => void oscillator.start(at)),
    stop: (at) => oscillators.forEach((oscillator) => void oscillator.stop(at)),
  };
}

function oscillatorOf(context: BaseAudioContext, { frequencyHz, amplitude, phase }: Partial): OscillatorNode {
  const real = new Float32Array([0, amplitude * Math.cos(phase)]);
  const imag = new Float32Array([0, -amplitude * Math.sin(phase)]);
  const wave = context.createPeriodicWave(real, imag, { disableNormalization: true });
  const oscillator = context.createOscillator();
  oscillator.frequency.value = frequencyHz;
  oscillator.setPeriodicWave(wave);
  return oscillator;
}
