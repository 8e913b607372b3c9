import { readFileSync } from 'node:fs';
import { deviceOf } from '../../src/load/index.ts';
import { PairCycle, pairCycle } from '../../src/load/push-pull/push-pull-cycle.ts';
import { pushPullSheet } from '../../src/load/push-pull/push-pull-sheet.ts';
import { resolvePair } from '../../src/load/push-pull/push-pull-stage.ts';
import { loadsAround } from '../../src/load/stage/sweep.ts';
import type { Device, Electrodes, PushPullDescription, TubeType } from '../../src/load/types.ts';
import { type Spread, spread } from './signal.ts';

/** The whole load sheet of a pair against the bare evaluations of the tube's model that it makes. */
export interface LoadBench {
  /** Loads in its sweep. */
  points: number;
  evaluations: Evaluations;
  sheetMs: Spread;
  bareMs: Spread;
  /** Of the times within each round. */
  ratio: Spread;
}

interface Evaluations {
  plate: number;
  screen: number;
}

const loadOhm = 3500;
const pair: PushPullDescription = {
  id: 'output',
  topology: 'push-pull',
  device: 'EL34',
  connection: 'pentode',
  plateV: 375,
  supplyV: null,
  screenV: 365,
  bias: { kind: 'grid', gridV: -24 },
  windingOhm: 60,
  loadOhm,
  driveV: null,
  powerW: null,
  mismatchRatio: 0,
};

const rounds = 9;
const warmUp = 2;
/** Of the same work within one reading: the clock of processor time ticks in milliseconds. */
const repeats = 12;

/** Sheets with sweeps of several lengths and the bare evaluations of each, in turn within each round. */
export function measureLoad(lengths: readonly number[]): LoadBench[] {
  const tube = JSON.parse(readFileSync('shared/tubes/el34.json', 'utf8')) as TubeType;
  const sheet = (type: TubeType, points: number) =>
    pushPullSheet(pair, { supply: null, tubes: { [pair.device]: type }, sweepPoints: points });
  const device = deviceOf(tube, 'pentode');
  const places = placesOf(tube);
  const cases = lengths.map((points) => ({
    points,
    evaluations: counted(tube, (type) => sheet(type, points)),
  }));
  const times = Array.from({ length: rounds + warmUp }, () =>
    cases.map(({ points, evaluations }) => ({
      sheet: processorMs(() => sheet(tube, points)),
      bare: processorMs(() => evaluated(device, places, evaluations)),
    })),
  ).slice(warmUp);
  return cases.map((one, index) => {
    const of = (value: (time: { sheet: number; bare: number }) => number) =>
      spread(times.flatMap((round) => (round[index] ? [value(round[index])] : [])));
    return {
      ...one,
      sheetMs: of((time) => time.sheet),
      bareMs: of((time) => time.bare),
      ratio: of((time) => time.sheet / time.bare),
    };
  });
}

/** Processor time of this thread for some work, so that other work on the machine does not count. */
function processorMs(work: () => unknown): number {
  const before = process.threadCpuUsage();
  for (let k = 0; k < repeats; k++) work();
  const { user, system } = process.threadCpuUsage(before);
  return (user + system) / 1000 / repeats;
}

/** How often some work evaluates the model: each plate current reads kG1 once, each screen current kG2. */
function counted(tube: TubeType, work: (tube: TubeType) => unknown): Evaluations {
  const found: Evaluations = { plate: 0, screen: 0 };
  const model = new Proxy(tube.model, {
    get(target, key, receiver) {
      if (key === 'kG1') found.plate++;
      if (key === 'kG2') found.screen++;
      return Reflect.get(target, key, receiver);
    },
  });
  work({ ...tube, model });
  if (found.plate === 0) throw new Error('The model was evaluated without reading its parameters.');
  return found;
}

/** Electrode voltages of the first side over the cycles of a sweep. */
function placesOf(tube: TubeType): Electrodes[] {
  const found = resolvePair(pair, { supply: null, tubes: { [pair.device]: tube } });
  if ('faults' in found) throw new Error('The pair has no point of rest.');
  const cycles = loadsAround(loadOhm).map((ohm) => pairCycle(found.pair, ohm, 'to zero grid'));
  return cycles.flatMap((cycle) =>
    cycle instanceof PairCycle
      ? cycle.half.map(({ sides: [{ plateV, screenV, gridV }] }) => ({ plateV, screenV, gridV }))
      : [],
  );
}

/** So many evaluations at the places in turn, and nothing else; the sum keeps them from being left out. */
function evaluated(device: Device, places: readonly Electrodes[], { plate, screen }: Evaluations): number {
  const [first] = places;
  if (!first) throw new Error('There is no place to evaluate the model at.');
  let sum = 0;
  for (let k = 0; k < plate; k++) sum += device.plateCurrent(places[k % places.length] ?? first);
  for (let k = 0; k < screen; k++) sum += device.screenCurrent(places[k % places.length] ?? first);
  return sum;
}
