import {
  type FollowerDescription,
  type FollowerSheet,
  type LoadFault,
  loadSheet,
  type SupplyDescription,
  type ThermalPath,
} from '../../src/load/index.ts';

/** A class B pair without loss, resistors or a source resistance: the circuit of the textbooks. */
export const classB: FollowerDescription = {
  id: 'output',
  topology: 'follower-pair',
  railV: 30,
  outputCapacitorF: null,
  loadOhm: 16,
  emitterOhm: 0,
  biasA: 0,
  sinkOhm: null,
  count: 1,
  lossV: 0,
  powerW: null,
  thermal: null,
  ratings: null,
};

export const path: ThermalPath = {
  junctionToCase: 1.2,
  caseToSink: 0.5,
  sinkToAmbient: 2.2,
  ambientC: 40,
  maxJunctionC: 150,
  devices: null,
  otherW: 0,
};

/** A pair in class AB with everything that a maker would write. */
export const classAB: FollowerDescription = {
  ...classB,
  railV: 18,
  loadOhm: 8,
  emitterOhm: 0.1,
  biasA: 0.04,
  lossV: 2,
  powerW: 10,
  thermal: path,
  ratings: { voltageV: 100, currentA: 8, powerW: 80, source: 'invented' },
};

/** A class A follower on a current source. */
export const classA: FollowerDescription = {
  ...classB,
  topology: 'follower',
  railV: 20,
  loadOhm: 8,
  biasA: 1.5,
};

export function followerOf(
  change: Partial<FollowerDescription>,
  from = classB,
  supply: SupplyDescription | null = null,
): { sheet: FollowerSheet; problems: LoadFault[] } {
  const { stages, problems } = loadSheet([{ ...from, ...change }], supply, {});
  const [sheet] = stages;
  if (sheet?.topology !== 'follower' && sheet?.topology !== 'follower-pair') throw new Error('no follower');
  return { sheet, problems };
}

/** A figure that must be there. */
export function there<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new Error('a figure is missing');
  return value;
}
