import { type Finding, sweepMessages as messages } from '../messages.ts';
import type { LevelSweep, LevelSweepOptions, LevelSweepSummary, Withheld } from '../types.ts';
import { type Curve, powerBlend, valueAt } from './interpolate.ts';
import { ascendingRows, curveOf, isPositive, isRatio } from './sweep-columns.ts';

const defaultThdRatios = [0.01, 0.03, 0.1];
const defaultPowersW = [1];

/** Output power and a distortion ratio measured together. */
interface Point {
  powerW: number;
  ratio: number;
}

/** The columns of a sweep over its drive. Distortion stands beside the power of its own point, in order of drive. */
interface Columns {
  power: Curve | null;
  thd: Point[];
  harmonics: { order: number; points: Point[] }[];
}

/**
 * The figures of a sweep over level: output power at stated distortion, distortion at stated power, and the largest
 * power measured.
 *
 * Power at a distortion is where distortion rises through it for the last time as the drive grows; at low level, noise
 * makes the ratio fall first. Between points both run straight on log-log paper. Nothing is extrapolated and nothing
 * throws: a figure that the sweep does not reach is null, and `withheld` says why.
 *
 * @source output power at a stated total harmonic distortion: IEC 60268-3, from memory.
 */
export function summariseLevelSweep(sweep: LevelSweep, options: LevelSweepOptions = {}): LevelSweepSummary {
  const thdRatios = (options.thdRatios ?? defaultThdRatios).filter(isPositive);
  const powersW = (options.powersW ?? defaultPowersW).filter(isPositive);
  const { columns, findings } = columnsOf(sweep, options.loadOhm);
  const { power, thd, harmonics } = columns;
  const powerAtThd = thdRatios.map((thdRatio) => ({ thdRatio, powerW: lastRise(thd, thdRatio) }));
  const atPower = powersW.map((powerW) => ({
    powerW,
    thd: ratioAt(thd, powerW),
    harmonics: harmonics.map(({ order, points }) => ({ order, ratio: ratioAt(points, powerW) })),
  }));
  return {
    points: power?.axis.length ?? 0,
    ends: power === null ? [] : endsOf(power, thd),
    largestPowerW: power && Math.max(...power.values),
    powerAtThd,
    atPower,
    withheld: power === null ? withheldAll() : withheldSome(columns, { powerAtThd, atPower }),
    warnings: findings.map((finding) => ({ ...finding, channel: null })),
  };
}

/** The columns of a sweep in order of drive. */
export function drivenColumns(sweep: LevelSweep, loadOhm: number | undefined): Columns {
  return columnsOf(sweep, loadOhm).columns;
}

function columnsOf(
  sweep: LevelSweep,
  loadOhm: number | undefined,
): { columns: Columns; findings: Finding[] } {
  const watts = sweep.powerW ?? powerInto(sweep.outputV, loadOhm);
  const drive = sweep.inputV ?? watts;
  if (watts === undefined || drive === undefined) {
    return { columns: { power: null, thd: [], harmonics: [] }, findings: [] };
  }
  const rows = ascendingRows(drive, sweep.inputV === undefined ? 'output power' : 'input voltage');
  const findings = [...rows.findings];
  const curve = (name: string, values: Float64Array | undefined, usable: (value: number) => boolean) => {
    const found = curveOf({ name, values, between: 'power', usable }, rows, drive.length);
    findings.push(...found.findings);
    return found.curve;
  };
  const power = curve('output power', watts, isPositive);
  const ratios = (name: string, values: Float64Array | undefined) =>
    beside(power, curve(name, values, isRatio));
  const columns = {
    power,
    thd: ratios('total harmonic distortion', sweep.thd),
    harmonics: (sweep.harmonics ?? []).map(({ order, ratio }) => ({
      order,
      points: ratios(`harmonic ${order}`, ratio),
    })),
  };
  return { columns, findings };
}

function powerInto(outputV: Float64Array | undefined, loadOhm = 0): Float64Array | undefined {
  return isPositive(loadOhm) ? outputV?.map((volts) => (volts * volts) / loadOhm) : undefined;
}

/** A column's ratios with the power at the same drive; a ratio whose power was left out has no place. */
function beside(power: Curve | null, column: Curve | null): Point[] {
  if (power === null || column === null) return [];
  const powerAt = new Map(Array.from(power.axis, (drive, i) => [drive, power.values[i] ?? 0]));
  return Array.from(column.axis, (drive, i) => ({
    powerW: powerAt.get(drive),
    ratio: column.values[i] ?? 0,
  })).filter((point): point is Point => point.powerW !== undefined);
}

/** Power where the ratio rises through a level for the last time; null where it never does. */
function lastRise(points: readonly Point[], level: number): number | null {
  for (let i = points.length - 1; i > 0; i--) {
    const [from, to] = [points[i - 1], points[i]];
    if (from && to && from.ratio < level && to.ratio >= level) return powerBetween(from, to, level);
  }
  return null;
}

/** On log-log paper; a ratio of zero has no place there, and the run from it is straight in the ratio itself. */
function powerBetween(from: Point, to: Point, level: number): number {
  const share =
    from.ratio > 0
      ? (Math.log(level) - Math.log(from.ratio)) / (Math.log(to.ratio) - Math.log(from.ratio))
      : level / to.ratio;
  return powerBlend(from.powerW, to.powerW, share);
}

/** Ratio where the power first passes a value as the drive grows; null where it never does. */
function ratioAt(points: readonly Point[], powerW: number): number | null {
  const next = points.findIndex(
    (point, i) => point.powerW >= powerW && (i === 0 || (points[i - 1]?.powerW ?? 0) < powerW),
  );
  const [from, to] = [points[next - 1], points[next]];
  if (to === undefined) return null;
  if (to.powerW === powerW) return to.ratio;
  if (from === undefined) return null;
  const axis = Float64Array.of(from.powerW, to.powerW);
  return valueAt({ axis, values: Float64Array.of(from.ratio, to.ratio), between: 'power' }, powerW);
}

function endsOf(power: Curve, thd: readonly Point[]): LevelSweepSummary['ends'] {
  const ends = [power.values[0], power.values.at(-1)].filter((value) => value !== undefined);
  const found = [thd[0], thd.at(-1)];
  return ends.map((powerW, i) => ({ powerW, thd: found[i]?.powerW === powerW ? found[i].ratio : null }));
}

function withheldAll(): Withheld[] {
  const reason = messages.noPower().message;
  return ['largestPowerW', 'powerAtThd', 'atPower'].map((figure) => ({ figure, reason }));
}

function withheldSome(
  { power, thd }: Columns,
  { powerAtThd, atPower }: Pick<LevelSweepSummary, 'powerAtThd' | 'atPower'>,
): Withheld[] {
  const [first, last] = [thd[0], thd.at(-1)];
  if (power === null || first === undefined || last === undefined) {
    const reason = messages.noDistortion().message;
    return ['powerAtThd', 'atPower'].map((figure) => ({ figure, reason }));
  }
  const missing = powerAtThd.filter(({ powerW }) => powerW === null);
  const outside = atPower.filter((values) => values.thd === null);
  return [
    ...missing.map(({ thdRatio }) => ({
      figure: `power at ${thdRatio} distortion`,
      reason: notRisen(thd, thdRatio, { first, last }).message,
    })),
    ...outside.map(({ powerW }) => ({
      figure: `distortion at ${powerW} W`,
      reason: messages.powerOutsideSweep(powerW, Math.min(...power.values), Math.max(...power.values))
        .message,
    })),
  ];
}

function notRisen(
  thd: readonly Point[],
  level: number,
  { first, last }: { first: Point; last: Point },
): Finding {
  const above = thd.every(({ ratio }) => ratio >= level);
  return above
    ? messages.thdAlwaysAbove(level, first.ratio, first.powerW)
    : messages.thdNotReached(level, last.ratio, last.powerW);
}
