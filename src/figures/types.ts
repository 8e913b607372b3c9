/** Where a figure comes from: enough to compute it again. */
export interface Provenance {
  /** Path of the capture or record, relative to the journal. */
  file: string;
  /** SHA-256 of the file's bytes, lower-case hexadecimal; null for figures computed from a record's own values. */
  sha256: string | null;
  /** First and last data line used, counted from 1; null where no rows are involved. */
  lines: [number, number] | null;
  /** Anchor of the method on the methods page. */
  method: string;
  /** Settings of the method as name and printed value. */
  settings: Readonly<Record<string, string>>;
}

/** The one number type for what is shown. `low` and `high` bound the 95 % interval where there is one. */
export interface Figure {
  /** Id in the registry. */
  id: string;
  /** SI value, or null with `absent` saying why it does not exist. */
  value: number | null;
  low?: number;
  high?: number;
  /** Standard uncertainty that the instrument adds, in `unit`: it is in the interval, and repeats do not lower it. */
  systematic?: number;
  /** Standard uncertainty without the instrument's part, where `systematic` is in the interval and it is known. */
  random?: number;
  unit: string;
  absent?: string;
  /** What must be said beside the value, in a few words: "not told from noise". */
  remark?: string;
  /** Which part of the capture or version it belongs to: a channel, a stage. */
  subject?: string;
  /** Under what conditions, as name and printed value, in reading order. */
  conditions: Readonly<Record<string, string>>;
  provenance: Provenance;
}
