/** How steady the fundamental is, from stretches of the record. */
export interface Steadiness {
  /** Wander of the phase from stretch to stretch, rms in radians, beyond what noise gives. */
  phase: number;
  /** Wander of the amplitude, rms re the amplitude, beyond what noise gives. */
  level: number;
}

export interface SteadinessOptions {
  residual: Float64Array;
  /** Angle of the fundamental, radians per sample. */
  angle: number;
  /** Peak amplitude of the fundamental and its phase as a cosine at the first sample, radians. */
  amplitude: number;
  phase: number;
  /** Density of the noise, as for white noise of that variance per sample. */
  density: number;
}

const mostStretches = 16;
const fewestStretches = 4;
/** Equivalent noise bandwidth of a Hann window, in lines. */
const hannNoise = 1.5;
/** Standard deviations beyond what noise gives before a wander counts. */
const significant = 6;

/**
 * The fundamental's wander: the residual of the fit, turned back by the fundamental's own phase and averaged over up
 * to sixteen stretches of at least two cycles, shows in its real part how the amplitude and in its imaginary part
 * how the phase of each stretch differs from the whole. The averages are weighted by a Hann window, which keeps drift,
 * hum and higher harmonics out of them. Fewer than eight cycles cannot show any wander.
 *
 * @source synchronous (complex) demodulation: P. Bloomfield, Fourier Analysis of Time Series, 2nd ed., ch. 7, from
 * memory.
 */
export function steadiness(options: SteadinessOptions): Steadiness {
  const { residual, angle, amplitude, density } = options;
  const cycles = (angle * residual.length) / (2 * Math.PI);
  const stretches = Math.min(mostStretches, Math.floor(cycles / 2));
  if (stretches < fewestStretches) return { phase: 0, level: 0 };
  const length = residual.length / stretches;
  const tracks = Array.from({ length: stretches }, (_, i) =>
    demodulate(options, Math.round(i * length), Math.round((i + 1) * length)),
  );
  const expected = (hannNoise * 2 * density) / (length * amplitude * amplitude);
  return {
    phase: wander(
      tracks.map((track) => track.across),
      expected,
    ),
    level: wander(
      tracks.map((track) => track.along),
      expected,
    ),
  };
}

/** Mean of the residual over a stretch under a Hann window, turned by the fundamental's phase, re the amplitude. */
function demodulate(options: SteadinessOptions, start: number, end: number) {
  const { residual, angle, amplitude, phase } = options;
  const width = (2 * Math.PI) / (end - start);
  const [stepCosine, stepSine] = [Math.cos(angle), Math.sin(angle)];
  const [widthCosine, widthSine] = [Math.cos(width), Math.sin(width)];
  let [c, s, windowCosine, windowSine] = [
    Math.cos(angle * start + phase),
    Math.sin(angle * start + phase),
    1,
    0,
  ];
  let along = 0;
  let across = 0;
  for (let n = start; n < end; n++) {
    const weighted = (residual[n] ?? 0) * (1 - windowCosine);
    along += weighted * c;
    across -= weighted * s;
    const nextCosine = c * stepCosine - s * stepSine;
    s = s * stepCosine + c * stepSine;
    c = nextCosine;
    const nextWindow = windowCosine * widthCosine - windowSine * widthSine;
    windowSine = windowSine * widthCosine + windowCosine * widthSine;
    windowCosine = nextWindow;
  }
  const scale = 2 / ((end - start) * amplitude);
  return { along: along * scale, across: across * scale };
}

/** Root of the mean square beyond the expected one; 0 where chance accounts for it. */
function wander(deviations: readonly number[], expected: number): number {
  const square = deviations.reduce((sum, value) => sum + value * value, 0) / deviations.length;
  const chance = expected * (1 + significant * Math.sqrt(2 / deviations.length));
  return square > chance ? Math.sqrt(square - expected) : 0;
}
