import { outOfRange } from '../messages.ts';
import type {
  Bias,
  HeaterWinding,
  LoadFault,
  MeasuredPoint,
  SupplyDescription,
  TubeStageDescription,
} from '../types.ts';

type Range = readonly [number, number];

/** What a value may be; wide enough for any amplifier, narrow enough to catch a slipped prefix or sign. */
const ranges = {
  V: [0.1, 20e3],
  A: [1e-6, 100],
  Ω: [0.1, 1e9],
  F: [1e-9, 1],
  Hz: [1, 1e6],
  H: [1e-6, 1e5],
  W: [1e-3, 1e6],
  '°': [-90, 90],
  '': [0.1, 1000],
} as const satisfies Record<string, Range>;

const resistanceOrNone: Range = [0, 1e9];
const smallCapacitor: Range = [1e-12, 1];

type Unit = keyof typeof ranges;
export interface Checked {
  path: LoadFault['path'];
  value: number | null;
  unit: Unit;
  range?: Range;
}

/** Faults of the values of a stage that no stage can have; paths lead from the stage. */
export function checkStage(stage: TubeStageDescription): LoadFault[] {
  return faultsOf([
    { path: ['plate'], value: stage.plateV, unit: 'V' },
    { path: ['supply'], value: stage.supplyV ?? null, unit: 'V' },
    { path: ['screen'], value: stage.screenV, unit: 'V' },
    { path: ['plateResistor'], value: stage.plateResistorOhm, unit: 'Ω', range: resistanceOrNone },
    { path: ['nextGridLeak'], value: stage.nextGridLeakOhm, unit: 'Ω' },
    { path: ['screenResistor'], value: stage.screenResistorOhm ?? null, unit: 'Ω' },
    {
      path: ['couplingCapacitor'],
      value: stage.couplingCapacitorF ?? null,
      unit: 'F',
      range: smallCapacitor,
    },
    { path: ['bypassCapacitor'], value: stage.bypassCapacitorF ?? null, unit: 'F', range: smallCapacitor },
    { path: ['gridLeak'], value: stage.gridLeakOhm ?? null, unit: 'Ω' },
    { path: ['load'], value: stage.loadOhm, unit: 'Ω' },
    ...checkedPoint(stage.measured ?? null),
    { path: ['drive'], value: stage.driveV, unit: 'V', range: [1e-3, ranges.V[1]] },
    checkedBias(stage.bias),
  ]);
}

function checkedPoint(measured: MeasuredPoint | null): Checked[] {
  if (!measured) return [];
  const { plateA, plateV, cathodeV } = measured;
  return [
    { path: ['measured', 'plateCurrent'], value: plateA, unit: 'A' },
    { path: ['measured', 'plateVoltage'], value: plateV, unit: 'V' },
    { path: ['measured', 'cathodeVoltage'], value: cathodeV, unit: 'V', range: [0, ranges.V[1]] },
  ];
}

function checkedBias(bias: Bias): Checked {
  const path = ['bias'];
  if (bias.kind === 'grid') return { path, value: bias.gridV, unit: 'V', range: [-ranges.V[1], ranges.V[1]] };
  if (bias.kind === 'current') return { path, value: bias.plateA, unit: 'A' };
  return { path, value: bias.ohm, unit: 'Ω' };
}

/** Faults of the values of a supply; the path of a capacitor is its place in the list, from 0. */
export function checkSupply(supply: SupplyDescription): LoadFault[] {
  const capacitors = supply.capacitors.flatMap((capacitor, index): Checked[] => [
    { path: ['capacitors', index, 'capacitance'], value: capacitor.capacitanceF, unit: 'F' },
    { path: ['capacitors', index, 'ratedVoltage'], value: capacitor.ratedV, unit: 'V' },
    { path: ['capacitors', index, 'workingVoltage'], value: capacitor.workingV, unit: 'V' },
    { path: ['capacitors', index, 'bleeder'], value: capacitor.bleederOhm, unit: 'Ω' },
    {
      path: ['capacitors', index, 'resistance'],
      value: capacitor.seriesOhm ?? null,
      unit: 'Ω',
      range: resistanceOrNone,
    },
    { path: ['capacitors', index, 'inductance'], value: capacitor.seriesH ?? null, unit: 'H' },
    { path: ['capacitors', index, 'current'], value: capacitor.sectionA ?? null, unit: 'A' },
    { path: ['capacitors', index, 'bleederPower'], value: capacitor.bleederRatedW ?? null, unit: 'W' },
  ]);
  return faultsOf([
    { path: ['plate'], value: supply.plateV, unit: 'V' },
    { path: ['current'], value: supply.currentA, unit: 'A' },
    { path: ['sourceResistance'], value: supply.sourceResistanceOhm, unit: 'Ω', range: resistanceOrNone },
    { path: ['mains'], value: supply.mainsHz, unit: 'Hz' },
    { path: ['offLoad'], value: supply.offLoadV, unit: 'V' },
    ...capacitors,
    ...(supply.heaters ?? []).flatMap(checkedWinding),
  ]);
}

function checkedWinding({ voltageV, ratedA, feeds }: HeaterWinding, index: number): Checked[] {
  const path = ['heaters', index];
  return [
    { path: [...path, 'voltage'], value: voltageV, unit: 'V' },
    { path: [...path, 'ratedCurrent'], value: ratedA, unit: 'A' },
    ...feeds.map(
      ({ currentA }, row): Checked => ({
        path: [...path, 'feeds', row, 'current'],
        value: currentA,
        unit: 'A',
      }),
    ),
  ];
}

/** A fault for each value outside its range; null values are not looked at. */
export function faultsOf(checked: readonly Checked[]): LoadFault[] {
  return checked.flatMap(({ path, value, unit, range = ranges[unit] }) =>
    value === null || (value >= range[0] && value <= range[1]) ? [] : [outOfRange(path, value, unit, range)],
  );
}
