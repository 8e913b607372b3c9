import { outOfRange } from '../messages.ts';
import type { LoadFault } from '../types.ts';
import { coldJunction, noJunctionToCase } from './follower-messages.ts';
import type { FollowerDescription } from './follower-types.ts';
import { knownPath } from './thermal.ts';

type Unit = 'V' | 'A' | 'Ω' | 'F' | 'W' | 'K/W' | '°C';

/** What a value may be; wide enough for any output stage, narrow enough to catch a slipped prefix or sign. */
const ranges: Readonly<Record<Unit, readonly [number, number]>> = {
  V: [0.5, 1000],
  A: [1e-6, 100],
  Ω: [0.1, 1e6],
  F: [1e-9, 10],
  W: [1e-6, 1e5],
  'K/W': [1e-3, 1e4],
  '°C': [-60, 500],
};

/** Of values that may be left out or be nothing. */
const fromZero = (unit: Unit) => [0, ranges[unit][1]] as const;

interface Checked {
  path: LoadFault['path'];
  value: number | null;
  unit: Unit;
  range?: readonly [number, number];
}

/** Faults of the values of a transistor stage that no stage can have; paths lead from the stage. */
export function checkFollower(stage: FollowerDescription): LoadFault[] {
  const outside = [...electrical(stage), ...ofThermal(stage), ...ofRatings(stage)].flatMap(
    ({ path, value, unit, range = ranges[unit] }) =>
      value === null || (value >= range[0] && value <= range[1])
        ? []
        : [outOfRange(path, value, unit, range)],
  );
  return outside.length > 0 ? outside : thermalFaults(stage);
}

function electrical(stage: FollowerDescription): Checked[] {
  const rail = stage.outputCapacitorF === null ? 'rails' : 'rail';
  return [
    { path: [rail], value: stage.railV, unit: 'V' },
    { path: ['outputCapacitor'], value: stage.outputCapacitorF, unit: 'F' },
    { path: ['load'], value: stage.loadOhm, unit: 'Ω' },
    { path: ['emitterResistor'], value: stage.emitterOhm, unit: 'Ω', range: fromZero('Ω') },
    { path: ['biasCurrent'], value: stage.biasA, unit: 'A', range: biasRange(stage) },
    { path: ['sinkResistor'], value: stage.sinkOhm, unit: 'Ω' },
    { path: ['lossVoltage'], value: stage.lossV, unit: 'V', range: fromZero('V') },
    { path: ['power'], value: stage.powerW, unit: 'W' },
  ];
}

/** Class B has no current at rest; a single follower lives from it. */
const biasRange = ({ topology }: FollowerDescription) =>
  topology === 'follower-pair' ? fromZero('A') : ranges.A;

function ofThermal({ thermal }: FollowerDescription): Checked[] {
  if (!thermal) return [];
  const at = (key: string, value: number | null, unit: Unit, range = ranges[unit]): Checked => ({
    path: ['thermal', key],
    value,
    unit,
    range,
  });
  return [
    at('junctionToCase', thermal.junctionToCase, 'K/W'),
    at('caseToSink', thermal.caseToSink, 'K/W', fromZero('K/W')),
    at('sinkToAmbient', thermal.sinkToAmbient, 'K/W', fromZero('K/W')),
    at('ambient', thermal.ambientC, '°C'),
    at('maxJunction', thermal.maxJunctionC, '°C'),
    at('otherHeat', thermal.otherW, 'W', fromZero('W')),
  ];
}

function ofRatings({ ratings }: FollowerDescription): Checked[] {
  if (!ratings) return [];
  return [
    { path: ['ratings', 'voltage'], value: ratings.voltageV, unit: 'V' },
    { path: ['ratings', 'current'], value: ratings.currentA, unit: 'A' },
    { path: ['ratings', 'power'], value: ratings.powerW, unit: 'W' },
  ];
}

/** The junction must be allowed to be warmer than the air and than a case at rating. */
function thermalFaults(stage: FollowerDescription): LoadFault[] {
  const { thermal } = stage;
  if (!thermal) return [];
  const lowestC = Math.max(thermal.ambientC, thermal.junctionToCase === null ? 25 : thermal.ambientC);
  if (thermal.maxJunctionC <= lowestC) return [coldJunction(thermal.maxJunctionC, lowestC)];
  return knownPath(stage) ? [] : [noJunctionToCase()];
}
