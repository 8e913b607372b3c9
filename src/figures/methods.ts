/** Anchors of the methods page. */
export type MethodId =
  | 'reading'
  | 'sine-fit'
  | 'harmonics'
  | 'noise'
  | 'thd'
  | 'thd-plus-noise'
  | 'sinad'
  | 'spectrum'
  | 'clipping'
  | 'even-odd'
  | 'crest-factor'
  | 'transfer'
  | 'added-distortion'
  | 'output-power'
  | 'hum'
  | 'band-noise'
  | 'signal-to-noise'
  | 'noise-density'
  | 'folding'
  | 'two-tones'
  | 'intermodulation-lines'
  | 'modulation-distortion'
  | 'difference-frequency-distortion'
  | 'contested-weightings'
  | 'response-limits'
  | 'between-points'
  | 'power-at-distortion'
  | 'impedance'
  | 'distortion-rise'
  | 'band-means'
  | 'distortion-law'
  | 'clipping-onset'
  | 'rated-impedance'
  | 'resonance'
  | 'inductance'
  | 'output-impedance'
  | 'loudspeaker-response'
  | 'tube-model'
  | 'operating-point'
  | 'large-signal'
  | 'load-candidates'
  | 'stored-energy'
  | 'discharge';

/** One section of the methods page. `formulas` are TeX; `text` is plain prose, one string a paragraph. */
export interface Method {
  id: MethodId;
  title: string;
  text: readonly string[];
  formulas: readonly { tex: string; where: string }[];
  sources: readonly string[];
}
