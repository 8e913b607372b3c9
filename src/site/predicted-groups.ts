import type { Figure } from '../figures/index.ts';
import { type PredictedRow, predictedAtPower, predictedPowers } from '../figures/stages.ts';
import { measuredFigures } from '../journal/analysis/measurement.ts';
import type { CaptureRecord } from '../journal/types.ts';
import type { PowerStage } from '../load/index.ts';
import type { Source } from './measured-differences.ts';

/** What a model and one measurement say, at a power or as a sweep goes through them. */
export interface PredictedGroup {
  source: Source;
  /** Null for powers at stated distortion. */
  powerW: number | null;
  rows: PredictedRow[];
}

/** A stage's power at full drive, and the stage at any drive where its model tells harmonics. */
interface PowerModel {
  stage: PowerStage | null;
  fullW: number;
}

/** What a stage's model says beside the figures of a capture, or of repeats that stand for it. */
export function groupsOf(source: Source, of: PowerModel): PredictedGroup[] {
  return source.capture.kind === 'waveform' ? ofWaveform(source, of) : ofSweep(source, of);
}

const ratios = ['thd', 'harmonic-2', 'harmonic-3'];

function ofWaveform(source: Source, { stage }: PowerModel): PredictedGroup[] {
  const figures = source.measured.map(({ figure }) => figure);
  return figures
    .filter(({ id }) => id === 'fundamental-power')
    .flatMap(({ value: powerW, subject }): PredictedGroup[] => {
      if (!stage || powerW === null) return [];
      const own = figures.filter((figure) => figure.subject === subject && ratios.includes(figure.id));
      return [{ source, powerW, rows: predictedAtPower(stage, { powerW, figures: own }) }];
    });
}

function ofSweep(source: Source, of: PowerModel): PredictedGroup[] {
  const figures = source.measured.map(({ figure }) => figure);
  const powers: PredictedGroup = { source, powerW: null, rows: predictedPowers(of, figures) };
  const { stage } = of;
  const at = stage ? atStatedPowers(source.capture, figures) : [];
  return [
    powers,
    ...at.flatMap((measured): PredictedGroup[] =>
      stage ? [{ source, powerW: measured.powerW, rows: predictedAtPower(stage, measured) }] : [],
    ),
  ];
}

/** Total and harmonics where a sweep's distortion is stated at a power. */
function atStatedPowers({ analysis, measurement }: CaptureRecord, figures: readonly Figure[]) {
  const [first] = figures;
  if (analysis.kind !== 'level-sweep' || !first) return [];
  return analysis.sweeps.flatMap(({ channel, summary }) =>
    summary.atPower.map(({ powerW, thd, harmonics }) => {
      const values = [
        { id: 'thd', value: thd },
        ...harmonics.map(({ order, ratio }) => ({ id: `harmonic-${order}`, value: ratio })),
      ];
      const own = values.flatMap(({ id, value }): Figure[] => {
        const { conditions, provenance } = first;
        const figure = { id, value, unit: '1', subject: channel.name, conditions, provenance };
        return value === null || !ratios.includes(id) ? [] : measuredFigures([figure], measurement);
      });
      return { powerW, figures: own };
    }),
  );
}
