import { throughTransformer } from '../output/output-stage.ts';
import { turnsInUse } from '../output/output-transformer.ts';
import { reflectedImpedance } from '../output/transformer.ts';
import { resolvePair } from '../push-pull/push-pull-stage.ts';
import type { PushPullDescription } from '../push-pull/push-pull-types.ts';
import { findRoot } from '../solving/solve.ts';
import type { Harmonic, StageContext, StageDescription, TubeStageDescription } from '../types.ts';
import { drivenPair, drivenTube } from './driven.ts';
import { resolveStage, signalLoad } from './resting-stage.ts';

/** A stage by its model at one drive; power is that of the fundamental in the loudspeaker's resistor. */
export interface DrivenPoint {
  driveV: number;
  powerW: number;
  /** Orders 2 to 7. */
  harmonics: Harmonic[];
  thdRatio: number;
}

/** A stage that delivers power, at any drive up to its largest. */
export interface PowerStage {
  /** At the described drive, or the largest undisturbed one. */
  full: DrivenPoint;
  at(driveV: number): DrivenPoint | null;
}

/** Single-ended stages and pairs whose model tells their harmonics; null for others, and without a swing. */
export function powerStage(described: StageDescription, context: StageContext): PowerStage | null {
  if (described.topology === 'single-ended') return singleEnded(described, context);
  return described.topology === 'push-pull' ? pushPull(described, context) : null;
}

function singleEnded(described: TubeStageDescription, context: StageContext): PowerStage | null {
  const description = throughTransformer(described);
  const resolved = description.smallSignal ? { faults: [] } : resolveStage(description, context);
  const loadOhm = signalLoad(description);
  if ('faults' in resolved || loadOhm === null) return null;
  return inSpeaker(
    drivenTube(resolved.stage, loadOhm, description.driveV),
    passedShare(description, loadOhm),
  );
}

/** A stage with the powers in the loudspeaker: a share of those into its load. */
function inSpeaker(stage: PowerStage | null, passed: number): PowerStage | null {
  if (!stage) return null;
  const behind = (point: DrivenPoint) => ({ ...point, powerW: passed * point.powerW });
  return {
    full: behind(stage.full),
    at: (driveV) => {
      const point = stage.at(driveV);
      return point && behind(point);
    },
  };
}

/** Share of the power that the windings pass to the loudspeaker. */
function passedShare({ output }: Pick<TubeStageDescription, 'output'>, loadOhm: number): number {
  if (!output) return 1;
  const { turnsRatio } = turnsInUse(output.transformer, output.primaryShare);
  return reflectedImpedance(turnsRatio, output.speakerOhm) / loadOhm;
}

function pushPull(described: PushPullDescription, context: StageContext): PowerStage | null {
  const description = throughTransformer(described);
  const resolved = resolvePair(description, context);
  if ('faults' in resolved) return null;
  const { pair, loadOhm } = resolved;
  return inSpeaker(drivenPair(pair, loadOhm, description.driveV), passedShare(description, loadOhm));
}

const steps = 24;
const decades = 1.5;

/** A stage at drives evenly spread over the logarithm, from a thirtieth of the full one up. */
export function overDrive({ full, at }: PowerStage): DrivenPoint[] {
  const below = Array.from(
    { length: steps },
    (_, k) => full.driveV * 10 ** ((decades * (k - steps)) / steps),
  );
  return [...below.flatMap((driveV) => at(driveV) ?? []), full];
}

/** Relative tolerance of a drive or a power that is looked for. */
const found = 1e-6;
const mostSteps = 20;
/** Between these powers of the drive the output power is taken to go. */
const [slowest, fastest] = [0.5, 4];

/** A stage with the drive that gives a power; null above its largest power, and where no such drive is found. */
export function atPower({ full, at }: PowerStage, powerW: number): DrivenPoint | null {
  if (!(powerW > 0) || powerW > full.powerW) return null;
  let point = full;
  let exponent = 2;
  for (let step = 0; step < mostSteps; step++) {
    if (Math.abs(point.powerW / powerW - 1) < found) return point;
    const driveV = Math.min(full.driveV, point.driveV * (powerW / point.powerW) ** (1 / exponent));
    const next = at(driveV);
    if (!next || !(next.powerW > 0)) return null;
    const grew = Math.log(next.powerW / point.powerW) / Math.log(driveV / point.driveV);
    if (Number.isFinite(grew)) exponent = Math.min(fastest, Math.max(slowest, grew));
    point = next;
  }
  return null;
}

/** A stage where its distortion rises through a ratio for the last time as the drive grows; null where it does not. */
export function atDistortion(
  stage: PowerStage,
  points: readonly DrivenPoint[],
  ratio: number,
): DrivenPoint | null {
  const last = points.findLastIndex(({ thdRatio }) => thdRatio < ratio);
  const [low, high] = [points[last], points[last + 1]];
  if (!low || !high) return null;
  return solved(stage, { low: low.driveV, high: high.driveV }, ({ thdRatio }) => thdRatio - ratio);
}

/** The point at which something is zero. */
function solved(
  { at }: PowerStage,
  bracket: { low: number; high: number },
  excess: (point: DrivenPoint) => number,
): DrivenPoint | null {
  const of = (driveV: number) => {
    const point = at(driveV);
    return point ? excess(point) : Number.NaN;
  };
  const driveV = findRoot(of, bracket, found);
  return driveV === null ? null : at(driveV);
}
