import { quantityText } from '../../quantity/index.ts';
import { mainsHigh, supplySheet } from '../supply/supply.ts';
import type { Absent, LoadFault, StageContext, StageResult } from '../types.ts';
import { checkFollower } from './follower-check.ts';
import { type FollowerStage, followerCycle } from './follower-cycle.ts';
import { explainFollower } from './follower-explanation.ts';
import { followerLimits, type KeyedLimit } from './follower-limits.ts';
import { loadRow, sweepFollower } from './follower-loads.ts';
import {
  aboveLargest,
  beyondClipping,
  directCoupled,
  noEmitterResistor,
  noState,
  noStatedPower,
  noThermalPath,
  nothingLeft,
  overTransistorRating,
} from './follower-messages.ts';
import { largestPeak, outputLimit, stateAt, statesUpTo, worstState } from './follower-output.ts';
import { followerStage } from './follower-stage.ts';
import type { FollowerDescription, FollowerSheet, FollowerState } from './follower-types.ts';
import { knownPath, thermalSheet } from './thermal.ts';

const curvePoints = 40;

/** The load sheet of a transistor output stage; paths of its problems lead from the stage. */
export function followerSheet(
  description: FollowerDescription,
  context: StageContext,
): StageResult<FollowerSheet> {
  const faults = checkFollower(description);
  if (faults.length > 0) return { sheet: emptySheet(description), problems: faults };
  const found = followerStage(description, context);
  if ('fault' in found) return { sheet: emptySheet(description), problems: [found.fault] };
  const { stage } = found;
  const mostV = largestPeak(stage, ratedLoad(description));
  return mostV === null
    ? { sheet: emptySheet(description), problems: [nothingLeft(stage.railAt(stage.restA), stage.lossV)] }
    : sheetOf(description, stage, { mostV, highestV: highestAcross(description, context) });
}

const ratedLoad = ({ loadOhm }: FollowerDescription) => ({ ohm: loadOhm, angleDeg: 0 });

const named = ({ id, topology, count, outputCapacitorF }: FollowerDescription) => ({
  id,
  topology,
  supplyKind: outputCapacitorF === null ? ('split' as const) : ('single' as const),
  count,
});

function emptySheet(description: FollowerDescription): FollowerSheet {
  const reason = noState();
  const names = [
    'loadOhm',
    'rest',
    'largest',
    'limitedBy',
    'worst',
    'stated',
    'biasA',
    'classAW',
    'biasReadingV',
  ];
  const absent = [...names, 'lowCornerHz', 'thermal'].map((name) => [name, reason]);
  return {
    ...named(description),
    loadOhm: null,
    rest: null,
    largest: null,
    limitedBy: null,
    worst: null,
    stated: null,
    biasA: null,
    classAW: null,
    biasReadingV: null,
    lowCornerHz: null,
    thermal: null,
    limits: [],
    loads: [],
    byOutput: [],
    byLoad: [],
    explanation: [],
    absent: Object.fromEntries(absent),
  };
}

function sheetOf(
  description: FollowerDescription,
  stage: FollowerStage,
  { mostV, highestV }: { mostV: number; highestV: number },
): StageResult<FollowerSheet> {
  const load = ratedLoad(description);
  const path = knownPath(description);
  const end = followerCycle(stage, load, mostV);
  const largest = end.state;
  const rest = stateAt(stage, load, 0);
  const worst = worstState(stage, load, mostV);
  const stated = statedState(description, stage, largest);
  const thermal = path && thermalSheet(path, { rest, worst, largest });
  const limits = followerLimits(description, { highestV, largest, worst, thermal });
  const figures = {
    ...named(description),
    loadOhm: load.ohm,
    rest,
    largest,
    limitedBy: outputLimit(end, stage.pair),
    worst,
    stated,
    biasA: stage.restA / stage.count,
    classAW: stage.pair ? Math.min(2 * stage.restA ** 2 * load.ohm, largest.outputW) : largest.outputW,
    biasReadingV: biasReading(stage),
    lowCornerHz: lowCorner(description),
    thermal,
    limits: limits.map(({ row }) => row),
    loads: otherLoads(description).flatMap((one) => loadRow(stage, one, path) ?? []),
    byOutput: withWorst(statesUpTo(stage, load, mostV, curvePoints), worst),
    byLoad: sweepFollower(stage, load.ohm),
  };
  return {
    sheet: { ...figures, explanation: explainFollower(figures), absent: absentOf(description, figures) },
    problems: warningsOf(description, limits, largest.outputW),
  };
}

/** The curve passes through the worst output itself. */
function withWorst(states: readonly FollowerState[], worst: FollowerState): FollowerState[] {
  const others = states.filter(({ outputPeakV }) => outputPeakV !== worst.outputPeakV);
  return [...others, worst].sort((a, b) => a.outputPeakV - b.outputPeakV);
}

/** Half and twice the rated load, and the rated one with 45° between voltage and current. */
function otherLoads({ loadOhm }: FollowerDescription) {
  return [
    { ohm: loadOhm, angleDeg: 0 },
    { ohm: loadOhm / 2, angleDeg: 0 },
    { ohm: 2 * loadOhm, angleDeg: 0 },
    { ohm: loadOhm, angleDeg: 45 },
  ];
}

function statedState(
  { powerW, loadOhm }: FollowerDescription,
  stage: FollowerStage,
  largest: FollowerState,
): FollowerState | null {
  if (powerW === null || powerW > largest.outputW) return null;
  return stateAt(stage, { ohm: loadOhm, angleDeg: 0 }, Math.sqrt(2 * powerW * loadOhm));
}

/** The whole supply off load with the mains 10 % high, which a transistor sees across it at the other crest. */
function highestAcross({ railV, outputCapacitorF }: FollowerDescription, { supply }: StageContext): number {
  const across = outputCapacitorF === null ? 2 : 1;
  const ofSupply = railV === null && supply ? supplySheet(supply).highestV : null;
  return across * (ofSupply ?? mainsHigh * (railV ?? 0));
}

function biasReading({ emitterOhm, restA, count, pair }: FollowerStage): number | null {
  return emitterOhm > 0 ? ((pair ? 2 : 1) * emitterOhm * restA) / count : null;
}

/**
 * −3 dB of output capacitor and load, in hertz.
 * @source first-order high-pass, f = 1/(2πRC)
 */
function lowCorner({ outputCapacitorF, loadOhm }: FollowerDescription): number | null {
  return outputCapacitorF === null ? null : 1 / (2 * Math.PI * loadOhm * outputCapacitorF);
}

function absentOf(
  { powerW }: FollowerDescription,
  {
    stated,
    biasReadingV,
    lowCornerHz,
    thermal,
  }: Pick<FollowerSheet, 'stated' | 'biasReadingV' | 'lowCornerHz' | 'thermal'>,
): Absent {
  return {
    ...(stated === null ? { stated: powerW === null ? noStatedPower() : aboveLargest() } : {}),
    ...(biasReadingV === null ? { biasReadingV: noEmitterResistor() } : {}),
    ...(lowCornerHz === null ? { lowCornerHz: directCoupled() } : {}),
    ...(thermal === null ? { thermal: noThermalPath() } : {}),
  };
}

function warningsOf(
  { powerW }: FollowerDescription,
  limits: readonly KeyedLimit[],
  largestW: number,
): LoadFault[] {
  const over = limits.flatMap(({ row, path }) =>
    row.over && row.limit !== null
      ? [
          overTransistorRating(
            path,
            row.name,
            quantityText(row.value, row.unit),
            quantityText(row.limit, row.unit),
          ),
        ]
      : [],
  );
  return powerW !== null && powerW > largestW ? [...over, beyondClipping(powerW, largestW)] : over;
}
