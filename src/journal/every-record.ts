/** Records by kind, as a journal's files have them. */
export interface RecordsByKind<Kind> {
  amplifiers: readonly Kind[];
  versions: readonly Kind[];
  units: readonly Kind[];
  logs: readonly Kind[];
  parts: readonly Kind[];
  decisions: readonly Kind[];
  sessions: readonly Kind[];
  comparisons: readonly Kind[];
  pages: readonly Kind[];
}

/** Every record of a journal, kind by kind. */
export const everyRecord = <Kind>(of: RecordsByKind<Kind>): Kind[] => [
  ...of.amplifiers,
  ...of.versions,
  ...of.units,
  ...of.logs,
  ...of.parts,
  ...of.decisions,
  ...of.sessions,
  ...of.comparisons,
  ...of.pages,
];
