import { type LevelTrim, levelTrim, ratioAt, type SweepCurve } from '../../compare/index.ts';
import { type Measured, measuredFigure, singleMeasured } from '../../figures/index.ts';
import { curveOf } from '../claims/sweep-reader.ts';
import { type ComparedSweep, comparedSweeps } from './compared-columns.ts';
import type { ComparedAlternative } from './compared-sources.ts';

/** Output power at which gains are compared where both level sweeps reach it. */
const usualW = 1;

/**
 * How much louder one alternative is than the other at the same input, from the gains of their level sweeps at one output
 * power: 1 W, or the middle of what both cover; null without two sweeps that say output and input.
 */
export function comparedLevels(one: ComparedAlternative, other: ComparedAlternative): LevelTrim | null {
  const [first, second] = [one, other].map(({ sources }) =>
    comparedSweeps(sources, 'level-sweep').flatMap((sweep) => {
      const curve = gainOver(sweep);
      return curve ? [{ sweep, curve }] : [];
    }),
  );
  const [before, after] = [first?.[0], second?.[0]];
  if (!before || !after) return null;
  const watts = sharedPower(before.curve, after.curve);
  if (watts === null) return null;
  return levelTrim(gainAt(before, watts), gainAt(after, watts));
}

/** Output over input voltage against output power. */
function gainOver({ axis, powerW, inputV, source }: ComparedSweep): SweepCurve | null {
  const { analysis, data } = source.capture;
  const loadOhm = data.load ?? (analysis.kind === 'level-sweep' ? analysis.loadOhm : null);
  if (!powerW || !inputV || loadOhm === null) return null;
  const gains = powerW.map((watts, i) => Math.sqrt(watts * loadOhm) / (inputV[i] ?? Number.NaN));
  const curve = curveOf(axis, powerW, gains);
  return curve.axis.length > 1 ? curve : null;
}

function sharedPower(one: SweepCurve, other: SweepCurve): number | null {
  const low = Math.max(one.axis[0] ?? 0, other.axis[0] ?? 0);
  const high = Math.min(one.axis.at(-1) ?? 0, other.axis.at(-1) ?? 0);
  if (low > high) return null;
  return low <= usualW && usualW <= high ? usualW : Math.sqrt(low * high);
}

function gainAt({ sweep, curve }: { sweep: ComparedSweep; curve: SweepCurve }, watts: number): Measured {
  const { capture, channel } = sweep.source;
  const { file, sha256, data, measurement } = capture;
  const gain = ratioAt(curve, watts);
  const figure = {
    ...{ id: 'gain-at-fundamental', value: gain === null ? null : 20 * Math.log10(gain), unit: 'dB' },
    ...{ subject: channel, conditions: data.conditions },
    provenance: { file, sha256, lines: null, method: 'between-points', settings: {} },
  };
  return singleMeasured(measurement ? measuredFigure(figure, measurement) : figure);
}
