import type { DescribedSheet } from '../chain/chain-link.ts';
import { pairDrive } from '../push-pull/push-pull-drive.ts';
import { pairAtLoad } from '../push-pull/push-pull-signal.ts';
import { resolvePair } from '../push-pull/push-pull-stage.ts';
import { driveFor, largeSignal } from '../stage/large-signal.ts';
import { resolveStage, signalLoad } from '../stage/resting-stage.ts';
import type {
  PushPullDescription,
  SagRow,
  StageContext,
  StageDescription,
  StageSheet,
  TubeStageDescription,
} from '../types.ts';

/** A stage whose power goes with the plate supply. */
export type PowerStage = TubeStageDescription | PushPullDescription;

export const isPowerStage = (description: StageDescription): description is PowerStage =>
  description.topology === 'single-ended' || description.topology === 'push-pull';

export interface Feed {
  /** Drawn by everything at rest. */
  restA: number;
  /** Drawn at full drive by everything but this stage. */
  othersA: number;
  /** Like stages on the supply. */
  channels: number;
  /** From the rectifier to the stage. */
  ohm: number;
}

const mostRounds = 12;
const settledV = 1e-2;

/**
 * An output stage with the supply that its own current at full drive leaves. The plate loses what the supply
 * does and the screen the same share; a fixed bias stays. Null where no steady state is found.
 * @source fixed point of supply voltage and mean current
 */
export function saggedStage(
  { description, sheet }: DescribedSheet,
  context: StageContext,
  feed: Feed,
): SagRow | null {
  if (!isPowerStage(description)) return null;
  let at = outputOf(sheet);
  if (!at) return null;
  const { powerW } = at;
  let fallV = 0;
  for (let round = 0; round < mostRounds; round++) {
    const nextV: number = feed.ohm * (feed.channels * at.currentA + feed.othersA - feed.restA);
    const fallen = lowered(description, context, nextV);
    const next = fallen && outputAt(fallen.description, fallen.context);
    if (!next) return null;
    if (Math.abs(nextV - fallV) < settledV) {
      return { stage: sheet.id, fallV: nextV, powerW, saggedPowerW: next.powerW };
    }
    fallV = nextV;
    at = next;
  }
  return null;
}

/** Mean current and power at full drive. */
interface Output {
  currentA: number;
  powerW: number;
}

const outputFrom = (at: {
  averagePlateA: number;
  averageScreenA: number | null;
  powerW: number;
}): Output => ({
  currentA: at.averagePlateA + (at.averageScreenA ?? 0),
  powerW: at.powerW,
});

function outputOf(sheet: StageSheet): Output | null {
  if (sheet.topology !== 'single-ended' && sheet.topology !== 'push-pull') return null;
  return sheet.atLoad && outputFrom(sheet.atLoad);
}

function outputAt(description: PowerStage, context: StageContext): Output | null {
  const at =
    description.topology === 'push-pull'
      ? pairOutputAt(description, context)
      : tubeOutputAt(description, context);
  return at && outputFrom(at);
}

function pairOutputAt(description: PushPullDescription, context: StageContext) {
  const found = resolvePair(description, context);
  if ('faults' in found) return null;
  const driven = pairDrive(found.pair, found.loadOhm, description.driveV);
  return driven && pairAtLoad(found.pair, driven, found.tubes.count);
}

function tubeOutputAt(description: TubeStageDescription, context: StageContext) {
  const found = resolveStage(description, context);
  const loadOhm = signalLoad(description);
  if ('faults' in found || loadOhm === null) return null;
  const drive = driveFor(found.stage, loadOhm, description.driveV);
  return drive && largeSignal(found.stage, loadOhm, drive);
}

/** The stage and its context with the supply lower by `fallV`; null where nothing would be left. */
function lowered<D extends PowerStage>(
  description: D,
  context: StageContext,
  fallV: number,
): { description: D; context: StageContext } | null {
  const { plateV, supplyV, screenV } = description;
  const commonV = context.supply?.plateV ?? null;
  const wholeV = plateV ?? supplyV ?? commonV;
  if (wholeV === null || fallV >= wholeV) return null;
  const less = <V extends number | null | undefined>(value: V) =>
    typeof value === 'number' ? value - fallV : value;
  const screen = screenV === null ? null : screenV * (1 - fallV / wholeV);
  const supply = context.supply && { ...context.supply, plateV: less(commonV) };
  return {
    description: { ...description, plateV: less(plateV), supplyV: less(supplyV), screenV: screen },
    context: { ...context, supply },
  };
}
