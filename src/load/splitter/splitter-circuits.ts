import type {
  Device,
  LoadFault,
  LongTailedDescription,
  OutputName,
  Rest,
  SplitterDescription,
  SplitterSheet,
  StageOutput,
} from '../types.ts';
import { type PairAtRest, pairAtRest, pairBalance, pairGains, plateLoads, tailOhm } from './long-tailed.ts';
import { pairSwing } from './long-tailed-swing.ts';
import {
  type CathodeCircuit,
  type CurrentSwing,
  cathodeCircuit,
  cathodeLoadedGains,
  cathodeLoadedRest,
  cathodeLoadedSwing,
  splitLoadBalance,
  swingAt,
  type TriodeSlopes,
} from './one-tube-splitter.ts';
import { noSwing } from './splitter-messages.ts';

/** What the circuit does, before it is put beside ratings and into words. */
export type Signals = Pick<SplitterSheet, 'outputs' | 'drive' | 'balance'>;

export interface SplitterAtRest {
  points: { name: string; rest: Rest }[];
  cathodeV: number;
  signals(slopes: readonly TriodeSlopes[]): Signals;
}

/** A cathode follower or split load at rest, with what it does with signals. */
export function oneTubeStage(
  description: Exclude<SplitterDescription, LongTailedDescription>,
  device: Device,
  supplyV: number,
): SplitterAtRest | { fault: LoadFault } {
  const circuit = cathodeCircuit(description);
  const found = cathodeLoadedRest(device, circuit, { supplyV, grid: description.grid });
  if ('fault' in found) return found;
  const { rest } = found;
  return {
    points: [{ name: 'tube', rest }],
    cathodeV: circuit.cathodeOhm * rest.plateA,
    signals: ([slopes]) => {
      const swing = cathodeLoadedSwing(device, rest, circuit);
      const balance =
        description.topology === 'split-load' ? splitLoadBalance(circuit, description.nextGridLeakOhm) : null;
      return {
        outputs: slopes ? oneTubeOutputs(circuit, slopes, swing) : [],
        drive: driveOf(swing),
        balance,
      };
    },
  };
}

function oneTubeOutputs(
  circuit: CathodeCircuit,
  slopes: TriodeSlopes,
  swing: CurrentSwing | { reason: string },
): StageOutput[] {
  const gains = cathodeLoadedGains(circuit, slopes);
  const output = (name: 'plate' | 'cathode', loadOhm: number): StageOutput => ({
    name,
    inverting: name === 'plate',
    loadOhm,
    ...gains[name],
    ...swingAt(loadOhm, swing),
  });
  const cathode = output('cathode', circuit.cathodeLoadOhm);
  return circuit.plateOhm === 0 ? [cathode] : [output('plate', circuit.plateLoadOhm), cathode];
}

/** A long-tailed pair at rest, with what it does with signals. */
export function pairStage(
  description: LongTailedDescription,
  device: Device,
  supplyV: number,
): SplitterAtRest | { fault: LoadFault } {
  const found = pairAtRest(description, device, supplyV);
  if ('fault' in found) return found;
  return {
    points: [
      { name: 'driven tube', rest: found.driven },
      { name: 'other tube', rest: found.other },
    ],
    cathodeV: found.cathodeV,
    signals: ([first, second]) =>
      first && second
        ? pairSignals(description, { ...found, device }, [first, second])
        : { outputs: [], drive: null, balance: null },
  };
}

function pairSignals(
  description: LongTailedDescription,
  pair: PairAtRest & { device: Device },
  slopes: [TriodeSlopes, TriodeSlopes],
): Signals {
  const { plateResistorOhm, otherPlateResistorOhm, nextGridLeakOhm, otherGridLeakOhm } = description;
  const loads = plateLoads(description);
  const tail = tailOhm(description.tail, description.grid);
  const found = pairGains(slopes, loads, [plateResistorOhm, otherPlateResistorOhm], tail);
  const swing = pairSwing({ ...pair, loads, tailOhm: tail });
  const output = (side: 0 | 1, name: OutputName, current: CurrentSwing | undefined): StageOutput => ({
    name,
    inverting: side === 0,
    gain: found.gains[side],
    loadOhm: loads[side],
    outputOhm: found.outputOhms[side],
    togetherOhm: null,
    ...swingAt(loads[side], current ?? { reason: noSwing() }),
  });
  return {
    outputs: [output(0, 'driven plate', swing?.driven), output(1, 'other plate', swing?.other)],
    drive: driveOf(swing?.driven ?? { reason: noSwing() }),
    balance: pairBalance(found, slopes[1], {
      drivenLoadOhm: loads[0],
      otherLeakOhm: otherGridLeakOhm ?? nextGridLeakOhm,
      tail,
    }),
  };
}

const driveOf = (swing: CurrentSwing | { reason: string }): SplitterSheet['drive'] =>
  'reason' in swing ? null : { driveV: swing.driveV, limitedBy: swing.limitedBy };
