import type { Capture } from '../../capture/index.ts';
import {
  contestedFigures,
  distortionRiseFigures,
  type Figure,
  type FigureContext,
  frequencySweepFigures,
  type ImpedanceDeclaration,
  impedanceDetailFigures,
  impedanceSweepFigures,
  levelLawFigures,
  levelSweepFigures,
  levelSweepFindings,
  sayingClock,
  twoToneFigures,
  waveformFigures,
} from '../../figures/index.ts';
import type { CaptureRecord } from '../types.ts';
import type { Analysed } from './analyse.ts';
import type { SweepChannel } from './sweep-channels.ts';

/** The figures of one capture of a log, each with its conditions and where it comes from. */
export function figuresOf(record: Omit<CaptureRecord, 'figures'>): Figure[] {
  const { impedanceOf: object, secondary } = record.data;
  return figures(record.analysis, contextOf(record), { object, secondary });
}

/** Conditions and origin of a capture's figures. */
export function contextOf({
  file,
  sha256,
  capture,
  data,
}: Pick<CaptureRecord, 'file' | 'sha256' | 'capture' | 'data'>): FigureContext {
  return { conditions: data.conditions, provenance: { file, sha256, lines: linesOf(capture) } };
}

/** What the figures of a capture say together, in full sentences. */
export function findingsOf(analysis: Analysed['analysis']): string[] {
  if (analysis.kind !== 'level-sweep') return [];
  return analysis.sweeps.flatMap(({ summary }) => levelSweepFindings(summary));
}

/** The figures of a capture that belongs to no journal. */
export function inspectionFigures(file: string, capture: Capture, { analysis }: Analysed): Figure[] {
  const provenance = { file, sha256: null, lines: linesOf(capture) };
  const found = figures(analysis, { conditions: {}, provenance }, {});
  return found.map((figure) => sayingClock(figure, null));
}

function figures(
  analysis: Analysed['analysis'],
  context: FigureContext,
  declared: ImpedanceDeclaration,
): Figure[] {
  switch (analysis.kind) {
    case 'waveform':
      return [...waveformFigures(analysis.summary, context), ...contestedFigures(analysis.summary, context)];
    case 'two-tone':
      return twoToneFigures(analysis.summary, context);
    case 'frequency-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => [
        ...frequencySweepFigures(summary, subjectOf(channel), context),
        ...distortionRiseFigures(summary, subjectOf(channel), context),
      ]);
    case 'level-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => [
        ...levelSweepFigures(summary, subjectOf(channel), context),
        ...levelLawFigures(summary, subjectOf(channel), context),
      ]);
    case 'impedance-sweep':
      return analysis.sweeps.flatMap(({ channel, summary }) => [
        ...impedanceSweepFigures(summary, subjectOf(channel), context),
        ...impedanceDetailFigures(summary, declared, subjectOf(channel), context),
      ]);
    case 'unsummarised':
      return [];
  }
}

const subjectOf = ({ name, level }: SweepChannel) => ({ channel: name, unit: level?.unit ?? '' });

function linesOf({ table: { firstDataLine, rows } }: Capture): [number, number] {
  return [firstDataLine, firstDataLine + rows - 1];
}
