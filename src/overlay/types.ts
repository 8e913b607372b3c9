/** One curve of a channel, as it is published for the overlay page. */
export interface Curve {
  /** Id of the view that it belongs to. */
  view: string;
  channel: string;
  /** Of `y`, `low` and `high`: one of {@link isDecibel}, `%` or `Ω`. */
  unit: string;
  /** Hertz or watts. */
  x: number[];
  /** Null where there is no reading. */
  y: (number | null)[];
  /** Ends of the 95 % interval of each reading, where the instrument gives one. */
  low?: number[];
  high?: number[];
  /** The noise's level in one line of a spectrum. */
  floor?: number[];
  /** Level of a spectrum's fundamental; of two tones, of the upper one. */
  carrier?: number;
}

/** What the page knows of a channel of a capture before its curves are read. */
export interface TraceEntry {
  /** `<log>/<capture>:<channel>`, as it stands in addresses. */
  id: string;
  /** Name at the end of its line. */
  title: string;
  /** Id of the capture, which is the path of its page. */
  capture: string;
  /** Ids of the views that it has a curve in. */
  views: string[];
  amplifier: string | null;
  version: string | null;
  parts: string[];
  /** Alternatives of comparisons that it stands for. */
  alternatives: string[];
}

/** A curve with its name, to be drawn beside others. */
export interface Trace extends Curve {
  id: string;
  title: string;
}

/** Traces on one axis, and those that have no place there. */
export interface Overlaid {
  traces: Trace[];
  /** In full sentences. */
  leftOut: string[];
}
