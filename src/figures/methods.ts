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
  | 'response-limits'
  | 'between-points'
  | 'power-at-distortion'
  | 'impedance'
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
