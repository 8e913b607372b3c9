import { type Finding, sweepMessages as messages } from '../messages.ts';
import type {
  DistortionColumn,
  FrequencySweep,
  FrequencySweepOptions,
  FrequencySweepSummary,
  SweepValues,
  Withheld,
} from '../types.ts';
import { frequencyResponse } from './frequency-response.ts';
import { type Curve, extremeOf, valueAt } from './interpolate.ts';
import {
  type AxisRows,
  ascendingRows,
  curveOf,
  isPositive,
  isRatio,
  isReading,
  type RawColumn,
} from './sweep-columns.ts';

const defaultReferenceHz = 1000;
const defaultBandHz: [number, number] = [20, 20_000];

/** The columns of a sweep as curves over frequency; null where one is missing or holds nothing usable. */
interface Curves {
  level: Curve | null;
  gainDb: Curve | null;
  phaseDeg: Curve | null;
  thd: Curve | null;
  harmonics: { order: number; curve: Curve | null }[];
}

/**
 * The figures of a sweep over frequency: the response re its level at the reference frequency with the limits at
 * −1 dB and −3 dB (exactly; the half-power point of −3.0103 dB is another), the largest deviation within a band, and
 * for total and single harmonics their values at the reference and their extremes.
 *
 * Between points, level and distortion follow powers of frequency (straight lines on log-log paper), gain in decibels
 * and phase straight lines over the logarithm of frequency. Nothing is extrapolated and nothing throws: a figure that
 * the sweep does not reach is null, and `withheld` says why.
 *
 * @source reference 0 dB at 1 kHz and limits re it: gain-limited effective frequency range of IEC 60268-3, from memory.
 */
export function summariseFrequencySweep(
  sweep: FrequencySweep,
  options: FrequencySweepOptions = {},
): FrequencySweepSummary {
  const { referenceHz = defaultReferenceHz, bandHz = defaultBandHz, atHz = [] } = options;
  const rows = ascendingRows(sweep.frequencyHz, 'frequency');
  const { curves, findings } = curvesOf(sweep, rows);
  const warnings = [...rows.findings, ...repeats(rows), ...findings];
  const rangeHz = rangeOf(rows.axis);
  const response = frequencyResponse(curves, { referenceHz, bandHz, rangeHz });
  const distortion = distortionOf(curves, referenceHz);
  const at = atHz.filter(isPositive).map((frequencyHz) => valuesAt(curves, frequencyHz));
  return {
    points: rows.axis.length,
    rangeHz,
    response: response.response,
    distortion,
    at,
    withheld: [...response.withheld, ...withheldOutside(distortion, rangeHz, referenceHz, atHz)],
    warnings: warnings.map((finding) => ({ ...finding, channel: null })),
  };
}

/** The columns of a sweep as curves in ascending order of frequency. */
export function sweepCurves(sweep: FrequencySweep): Curves {
  return curvesOf(sweep, ascendingRows(sweep.frequencyHz, 'frequency')).curves;
}

function curvesOf(sweep: FrequencySweep, rows: AxisRows): { curves: Curves; findings: Finding[] } {
  const findings: Finding[] = [];
  const curve = (column: RawColumn) => {
    const found = curveOf(column, rows, sweep.frequencyHz.length);
    findings.push(...found.findings);
    return found.curve;
  };
  const ratio = (name: string, values: Float64Array | undefined) =>
    curve({ name, values, between: 'power', usable: isRatio });
  const straight = (name: string, values: Float64Array | undefined) =>
    curve({ name, values, between: 'straight', usable: isReading });
  const curves = {
    level: curve({ name: 'level', values: sweep.level, between: 'power', usable: isPositive }),
    gainDb: straight('gain', sweep.gainDb),
    phaseDeg: straight('phase', sweep.phaseDeg),
    thd: ratio('total harmonic distortion', sweep.thd),
    harmonics: (sweep.harmonics ?? []).map(({ order, ratio: values }) => ({
      order,
      curve: ratio(`harmonic ${order}`, values),
    })),
  };
  return { curves, findings };
}

function repeats({ axis }: AxisRows): Finding[] {
  const count = axis.length - new Set(axis).size;
  return count > 0 ? [messages.pointsRepeated(count)] : [];
}

function rangeOf(axis: Float64Array): [number, number] | null {
  const [first] = axis;
  const last = axis.at(-1);
  return first === undefined || last === undefined ? null : [first, last];
}

function distortionOf({ thd, harmonics }: Curves, referenceHz: number): DistortionColumn[] {
  return [{ order: null, curve: thd }, ...harmonics].flatMap(({ order, curve }) => {
    const minimum = curve && extremeOf(curve, (value) => -value);
    const maximum = curve && extremeOf(curve, (value) => value);
    if (!curve || !minimum || !maximum) return [];
    return {
      order,
      atReference: valueAt(curve, referenceHz),
      minimum: { ratio: minimum.value, atHz: minimum.at },
      maximum: { ratio: maximum.value, atHz: maximum.at },
    };
  });
}

function valuesAt({ level, gainDb, phaseDeg, thd, harmonics }: Curves, frequencyHz: number): SweepValues {
  const value = (curve: Curve | null) => curve && valueAt(curve, frequencyHz);
  return {
    frequencyHz,
    level: value(level),
    gainDb: value(gainDb),
    phaseDeg: value(phaseDeg),
    thd: value(thd),
    harmonics: harmonics.map(({ order, curve }) => ({ order, ratio: value(curve) })),
  };
}

function withheldOutside(
  distortion: readonly DistortionColumn[],
  rangeHz: [number, number] | null,
  referenceHz: number,
  atHz: readonly number[],
): Withheld[] {
  if (rangeHz === null) return [];
  const outside = (frequency: number) => messages.outsideSweep(frequency, rangeHz).message;
  const [low, high] = rangeHz;
  return [
    ...distortion
      .filter((column) => column.atReference === null)
      .map(({ order }) => ({
        figure: order === null ? 'thd at reference' : `harmonic ${order} at reference`,
        reason: outside(referenceHz),
      })),
    ...atHz
      .filter((frequency) => !(frequency >= low && frequency <= high))
      .map((frequency) => ({ figure: `values at ${frequency} Hz`, reason: outside(frequency) })),
  ];
}
