import { describe, expect, test } from 'vitest';
import { openLoadFile } from '../../src/journal/index.ts';
import { problemText, writeFiles } from '../support/journal.ts';

const supply = `supply:
  plate: 300 V
  current: 60 mA
  rectifier: half-wave
  channels: 1
  sourceResistance: 100 Ω
  reservoir:
    - { capacitance: 47 µF, bleeder: 220 kΩ, bleederPower: 2 W }
  filter:
    - { kind: LC, inductance: 10 H, resistance: 150 Ω, capacitance: 100 µF, feeds: [ output ] }
    - { kind: RC, resistance: 10 kΩ, capacitance: 22 µF, current: 3 mA }
  heaters:
    windings:
      - name: output tube
        voltage: 2.5 V
        ratedCurrent: 3 A
        feeds: [ { device: 2A3 } ]
      - name: driver
        voltage: 6.3 V
        feeds: [ { device: 12AX7, count: 2 }, { device: EL84, current: 0.76 A } ]
stages:
  - id: output
    topology: single-ended
    device: 2A3
    connection: triode
    plate: 250 V
    bias: { cathodeResistor: 750 Ω }
    load: 2.5 kΩ
`;

async function opened(source: string) {
  const { sheet, problems } = await openLoadFile(writeFiles({ 'a.yaml': source }), 'a.yaml');
  return { supply: sheet?.supply, problems: problems.map(problemText).join('\n').replaceAll('\u00a0', ' ') };
}

test('rectifier, filter, bleeder power, feeds and heaters reach the sheet', async () => {
  const { supply: sheet, problems } = await opened(supply);
  expect(problems).toBe('');
  expect(sheet?.ripple).toMatchObject({ rectifier: 'half-wave', frequencyHz: 50 });
  expect(sheet?.ripple?.points.map(({ kind, sectionA }) => [kind, sectionA])).toEqual([
    ['reservoir', null],
    ['LC', 0.06],
    ['RC', 0.003],
  ]);
  expect(sheet?.bleeders).toMatchObject([{ ohm: 220e3, ratedW: 2 }]);
  expect(sheet?.hum[0]?.rippleVrms).toBe(sheet?.ripple?.points[1]?.rippleVrms);
  // 2.5 A (RCA 2A3 data sheet); two 12AX7 with 0.3 A each and the stated 0.76 A.
  expect(sheet?.heaters.map(({ totalA }) => totalA)).toEqual([2.5, expect.closeTo(1.36, 9)]);
});

test('rails are split: the ripple is that of one capacitor, and no common bleeder is asked for', async () => {
  const { supply: sheet } = await opened(
    'supply: { rails: 40 V, current: 1 A, mains: 50 Hz, reservoir: [ { capacitance: 1 mF, bleeder: 2 kΩ }, { capacitance: 1 mF } ] }\n',
  );
  expect(sheet?.ripple?.peakToPeakV).toBeCloseTo(10, 9); // 1 A / (100 Hz · 1 mF)
  expect(sheet?.bleederNeeded).toBeNull();
});

describe('faults stand at their keys', () => {
  test.each([
    ['an inductance', '10 H', '10 MH', '10:31', 'error load/out-of-range'],
    ['a current through a section', 'current: 3 mA', 'current: 3 GA', '11:67', 'error load/out-of-range'],
    ['a rating of a bleeder', 'bleederPower: 2 W', 'bleederPower: 0 W', '8:60', 'error load/out-of-range'],
    [
      'a bleeder above its rating',
      'bleederPower: 2 W',
      'bleederPower: 0.4 W',
      '8:60',
      'warning load/bleeder-rating',
    ],
    ['a rectifier', 'half-wave', 'halfwave', '4:14', 'error'],
    ['a stage that is not there', '[ output ]', '[ outptu ]', '10:86', 'error load/unknown-stage'],
    ['a winding above its rating', '3 A', '2 A', '16:23', 'warning load/heater-rating'],
    ['a heater without data', '2A3 } ]', 'XY1 } ]', '17:28', 'warning load/heater-current'],
    ['a heater current out of range', '0.76 A', '0.76 MA', '20:72', 'error load/out-of-range'],
    ['an unknown key of a winding', 'ratedCurrent', 'ratedCurent', '16:9', 'error unknown-key'],
    ['a stated current far off', 'current: 60 mA', 'current: 90 mA', '3:12', 'warning load/current-drawn'],
  ])('%s', async (_title, sound, wrong, place, told) => {
    const source = supply.replace(sound, wrong);
    expect(source).not.toBe(supply);
    expect((await opened(source)).problems).toContain(`a.yaml:${place} ${told}`);
  });
});
