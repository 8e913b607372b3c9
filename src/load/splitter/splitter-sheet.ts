import { smallSignal } from '../device/small-signal.ts';
import { stageDevice } from '../device/stage-device.ts';
import { noOperatingPoint } from '../messages.ts';
import { limitsOfTubes } from '../stage/limits.ts';
import { ratingWarnings } from '../stage/limits-with-signal.ts';
import { leastCurrentA } from '../stage/operating-point.ts';
import type {
  Device,
  LimitRow,
  LoadFault,
  NamedPoint,
  Rest,
  SplitterDescription,
  SplitterSheet,
  StageContext,
  StageDevice,
  StageResult,
} from '../types.ts';
import { checkSplitter } from './splitter-check.ts';
import { oneTubeStage, pairStage, type Signals, type SplitterAtRest } from './splitter-circuits.ts';
import { explainSplitter } from './splitter-explanation.ts';
import {
  gridAboveCathode,
  noEqualResistor,
  noSlopes,
  noSwing,
  splitterSupplyMissing,
  tubeCutOff,
} from './splitter-messages.ts';

/** The load sheet of a cathode follower or phase splitter; paths of its problems lead from the stage. */
export function splitterSheet(
  description: SplitterDescription,
  { supply, tubes }: StageContext,
): StageResult<SplitterSheet> {
  const tube = stageDevice({ device: description.device, connection: 'triode', screenV: null }, tubes);
  if ('faults' in tube) return without(description, tube.faults);
  const supplyV = description.supplyV ?? supply?.plateV ?? null;
  const faults = [...checkSplitter(description), ...(supplyV === null ? [splitterSupplyMissing()] : [])];
  if (supplyV === null || faults.length > 0) return without(description, faults);
  const found = atRest(description, tube.device.resting, supplyV);
  if ('fault' in found) return without(description, [found.fault]);
  return sheetOf(description, tube.device, found);
}

function without(
  { id, topology, device }: SplitterDescription,
  problems: LoadFault[],
): StageResult<SplitterSheet> {
  const reason = noOperatingPoint();
  const empty = { points: [], cathodeV: null, limits: [], outputs: [], drive: null, balance: null };
  const absent = { points: reason, outputs: reason };
  return { sheet: { id, topology, device, modelSource: null, ...empty, explanation: [], absent }, problems };
}

function atRest(
  description: SplitterDescription,
  device: Device,
  supplyV: number,
): SplitterAtRest | { fault: LoadFault } {
  const found =
    description.topology === 'long-tailed'
      ? pairStage(description, device, supplyV)
      : oneTubeStage(description, device, supplyV);
  return 'fault' in found ? found : (unusable(found.points) ?? found);
}

/** A grid above its cathode, or a tube without current, is no point of rest for this model. */
function unusable(points: SplitterAtRest['points']): { fault: LoadFault } | null {
  for (const { rest } of points) {
    if (rest.gridV > 0) return { fault: gridAboveCathode(rest.gridV) };
    if (rest.plateA < leastCurrentA) return { fault: tubeCutOff(rest.plateA) };
  }
  return null;
}

function sheetOf(
  description: SplitterDescription,
  tube: StageDevice,
  stage: SplitterAtRest,
): StageResult<SplitterSheet> {
  const { id, topology, device, grid } = description;
  const points = stage.points.map(({ name, rest }) => pointOf(name, tube.resting, rest));
  const slopes = points.flatMap(({ mu, rpOhm }) => (mu === null || rpOhm === null ? [] : [{ mu, rpOhm }]));
  const signals =
    slopes.length === points.length ? stage.signals(slopes) : { outputs: [], drive: null, balance: null };
  const limits = stage.points.flatMap(({ name, rest }) => limitsOf(tube, name, rest, grid.kind === 'tap'));
  const figures = {
    id,
    topology,
    device,
    modelSource: tube.modelSource,
    points,
    cathodeV: stage.cathodeV,
    limits,
    ...signals,
  };
  return {
    sheet: { ...figures, explanation: explainSplitter(figures), absent: absentOf(figures) },
    problems: ratingWarnings(device, limits),
  };
}

function pointOf(name: string, device: Device, rest: Rest): NamedPoint {
  const { plateV, plateA, gridV } = rest;
  return { name, plateV, plateA, gridV, screenV: null, screenA: null, ...smallSignal(device, rest) };
}

/** Rows of one tube; in a pair each row says whose it is. */
function limitsOf(tube: StageDevice, name: string, rest: Rest, selfBiased: boolean): LimitRow[] {
  const bias = selfBiased ? 'cathode-resistor' : 'grid';
  const rows = limitsOfTubes(tube, { device: tube.resting, rest }, bias);
  return name === 'tube' ? rows : rows.map((row) => ({ ...row, name: `${row.name}, ${name}` }));
}

function absentOf({ outputs, drive, balance }: Signals): SplitterSheet['absent'] {
  if (outputs.length === 0) return { outputs: noSlopes() };
  return {
    ...(drive === null ? { drive: noSwing() } : {}),
    ...(balance?.equalOhm === null ? { equalOhm: noEqualResistor() } : {}),
  };
}
