import type { Capture } from '../capture/index.ts';
import {
  type Figure,
  type FigureContext,
  frequencySweepFigures,
  impedanceSweepFigures,
  levelSweepFigures,
  waveformFigures,
} from '../figures/index.ts';
import type { Analysed } from './analyse.ts';
import type { SweepChannel } from './sweep-channels.ts';
import type { CaptureRecord } from './types.ts';

/** The figures of one capture of a log, each with its conditions and where it comes from. */
export function figuresOf(record: Omit<CaptureRecord, 'figures'>): Figure[] {
  const { file, sha256, capture, data } = record;
  return figures(record.analysis, {
    conditions: data.conditions,
    provenance: { file, sha256, lines: linesOf(capture) },
  });
}

/** The figures of a capture that belongs to no journal. */
export function inspectionFigures(file: string, capture: Capture, { analysis }: Analysed): Figure[] {
  return figures(analysis, { conditions: {}, provenance: { file, sha256: null, lines: linesOf(capture) } });
}

function figures(analysis: Analysed['analysis'], context: FigureContext): Figure[] {
  switch (analysis.kind) {
    case 'waveform':
      return waveformFigures(analysis.summary, context);
    case 'frequency-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => frequencySweepFigures(summary, subjectOf(channel), context));
    case 'level-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => levelSweepFigures(summary, subjectOf(channel), context));
    case 'impedance-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => impedanceSweepFigures(summary, subjectOf(channel), context));
    case 'unsummarised':
      return [];
  }
}

const subjectOf = ({ name, level }: SweepChannel) => ({ channel: name, unit: level?.unit ?? '' });

function linesOf({ table: { firstDataLine, rows } }: Capture): [number, number] {
  return [firstDataLine, firstDataLine + rows - 1];
}
