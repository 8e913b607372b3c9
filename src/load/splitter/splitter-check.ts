import { type Checked, faultsOf } from '../stage/check-description.ts';
import type { LoadFault, SplitterDescription } from '../types.ts';

const anyVoltage = [-20e3, 20e3] as const;

/** Faults of the values of a follower or splitter that no stage can have; paths lead from the stage. */
export function checkSplitter(description: SplitterDescription): LoadFault[] {
  const { supplyV, grid, nextGridLeakOhm, otherGridLeakOhm } = description;
  return faultsOf([
    { path: ['supply'], value: supplyV, unit: 'V' },
    grid.kind === 'tap'
      ? { path: ['bias'], value: grid.ohm, unit: 'Ω' }
      : { path: ['bias'], value: grid.gridV, unit: 'V', range: anyVoltage },
    { path: ['nextGridLeak'], value: nextGridLeakOhm, unit: 'Ω' },
    { path: ['otherGridLeak'], value: otherGridLeakOhm, unit: 'Ω' },
    ...resistors(description),
  ]);
}

function resistors(description: SplitterDescription): Checked[] {
  switch (description.topology) {
    case 'cathode-follower':
      return [{ path: ['cathodeResistor'], value: description.cathodeResistorOhm, unit: 'Ω' }];
    case 'split-load':
      return [
        { path: ['plateResistor'], value: description.plateResistorOhm, unit: 'Ω' },
        { path: ['cathodeResistor'], value: description.cathodeResistorOhm, unit: 'Ω' },
      ];
    case 'long-tailed': {
      const { tail, plateResistorOhm, otherPlateResistorOhm } = description;
      const own: Checked[] =
        tail.kind === 'current'
          ? [{ path: ['tail', 'current'], value: tail.totalA, unit: 'A' }]
          : [
              { path: ['tail', 'resistor'], value: tail.ohm, unit: 'Ω' },
              { path: ['tail', 'supply'], value: tail.returnV, unit: 'V', range: anyVoltage },
            ];
      return [
        { path: ['plateResistor'], value: plateResistorOhm, unit: 'Ω' },
        { path: ['otherPlateResistor'], value: otherPlateResistorOhm, unit: 'Ω' },
        ...own,
      ];
    }
  }
}
