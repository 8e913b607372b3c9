import type { Capture, CaptureDeclaration } from '../capture/index.ts';
import type { Analysed } from '../journal/analysis/analyse.ts';
import { findingsOf } from '../journal/analysis/capture-figures.ts';
import type { Problem } from '../problem/index.ts';

/** One capture as `inspect` has read it; nulls where the file could not be used. */
export interface Inspection {
  file: string;
  sha256: string | null;
  capture: Capture | null;
  analysed: Analysed | null;
  declaration: CaptureDeclaration | null;
  problems: Problem[];
}

/** The document that `inspect --json` prints, `quiescent/inspect@1`. */
export function inspectDocument({ file, sha256, capture, analysed, problems }: Inspection): object {
  const schema = 'quiescent/inspect@1';
  if (!capture || !analysed) return { schema, file, problems };
  const { kind, table, columns, sampling } = capture;
  return {
    ...{ schema, file, sha256, kind },
    table: {
      ...table,
      columns: columns.map(({ values: _values, ...column }) => column),
    },
    sampling,
    ...summaryOf(analysed),
    problems,
  };
}

/** The summary under its kind's own property; columns are named, not repeated. */
function summaryOf({ analysis }: Analysed): object {
  if (analysis.kind === 'unsummarised') return {};
  if (analysis.kind === 'waveform') {
    const { channels, transfers, settings } = analysis.summary;
    return { channels, transfers, settings };
  }
  if (analysis.kind === 'two-tone') {
    const { channels, settings } = analysis.summary;
    return { channels, settings };
  }
  return {
    sweeps: analysis.sweeps.map(({ channel, summary }) => ({ channel: channel.name, ...summary })),
    findings: findingsOf(analysis),
  };
}
