import { describe, expect, test } from 'vitest';
import {
  type HeaterLoad,
  loadSheet,
  type PushPullDescription,
  type StageDescription,
  type SupplyDescription,
  type SupplySheet,
} from '../../src/load/index.ts';
import { check, offBy, pentode, resistanceCoupled, singleEnded, tubeSheet, tubes } from './support.ts';

const supply: SupplyDescription = {
  plateV: 330,
  currentA: 0.06,
  sourceResistanceOhm: 120,
  mainsHz: 50,
  offLoadV: null,
  capacitors: [{ capacitanceF: 100e-6, ratedV: 450, workingV: 330, bleederOhm: 220e3 }],
};

const pair: PushPullDescription = {
  id: 'output',
  topology: 'push-pull',
  device: '2A3',
  connection: 'triode',
  plateV: 300,
  supplyV: null,
  screenV: null,
  bias: { kind: 'grid', gridV: -61 },
  windingOhm: null,
  loadOhm: 3000,
  driveV: null,
  powerW: null,
  mismatchRatio: 0,
};

function sheetOf(stages: StageDescription[], of: SupplyDescription = supply): SupplySheet {
  const { supply: sheet } = loadSheet(stages, of, tubes);
  if (!sheet) throw new Error('no supply');
  return sheet;
}

const rulesOf = (stages: StageDescription[], of: SupplyDescription) =>
  loadSheet(stages, of, tubes).problems.map(({ rule, path }) => `${rule} ${path.join('.')}`);

describe('current drawn', () => {
  test('is that of every stage, screens included, and of the bleeders', () => {
    const { stages } = loadSheet([pentode, resistanceCoupled], supply, tubes);
    const [output, driver] = stages.map((stage) => tubeSheet(stage).operatingPoint);
    const { drawn } = sheetOf([pentode, resistanceCoupled]);
    const expected = [
      (output?.plateA ?? 0) + (output?.screenA ?? 0),
      driver?.plateA ?? 0,
      330 / 220e3, // the bleeder at its working voltage
    ];
    expect(drawn?.rows.map(({ stage }) => stage)).toEqual(['output', 'driver', null]);
    expect(drawn?.rows.map(({ restA }) => restA)).toEqual(expected);
    expect(drawn?.restA).toBeCloseTo(
      expected.reduce((sum, one) => sum + one, 0),
      12,
    );
  });

  test('of a pair is that of both sides, and a second channel doubles it', () => {
    const { stages } = loadSheet([pair], supply, tubes);
    const point = stages[0]?.topology === 'push-pull' ? stages[0].operatingPoint : null;
    const row = (channels: number) => sheetOf([pair], { ...supply, channels }).drawn?.rows[0];
    expect(row(1)?.restA).toBeCloseTo(2 * (point?.plateA ?? 0), 12);
    expect(row(2)?.restA).toBeCloseTo(2 * (row(1)?.restA ?? 0), 12);
    expect(row(2)?.fullA).toBeCloseTo(2 * (row(1)?.fullA ?? 0), 12);
  });

  test('more than 25 % off the stated current is a warning at it', () => {
    const stating = (currentA: number) => rulesOf([singleEnded], { ...supply, currentA });
    expect(stating(0.06)).toEqual([]); // 59.9 mA drawn
    expect(stating(0.049)).toEqual([]); // 22 % off
    expect(stating(0.047)).toEqual(['load/current-drawn supply.current']); // 27 % off
    expect(stating(0.09)).toEqual(['load/current-drawn supply.current']); // 33 % off
  });

  test('a stage without an operating point is named, and too small a sum is then no warning', () => {
    const lost: StageDescription = { ...singleEnded, id: 'lost', device: '300C' };
    const { drawn } = sheetOf([resistanceCoupled, lost]);
    expect(drawn?.unknown).toEqual(['lost']);
    expect(rulesOf([resistanceCoupled, lost], supply)).toEqual(['load/unknown-device stages.1.device']);
  });

  test('without any stage there is none, with the reason', () => {
    const sheet = sheetOf([]);
    expect(sheet.drawn).toBeNull();
    expect(sheet.absent.drawn).toContain('No stage');
  });
});

describe('the supply at another current', () => {
  test('differs from the stated voltage by the difference times source and filter resistance', () => {
    const filtered: SupplyDescription = {
      ...supply,
      capacitors: [
        ...supply.capacitors,
        { capacitanceF: 47e-6, ratedV: null, workingV: null, bleederOhm: null, section: 'RC', seriesOhm: 80 },
      ],
    };
    const { drawn } = sheetOf([pair], filtered);
    expect(drawn?.restV).toBeCloseTo(330 + (0.06 - (drawn?.restA ?? 0)) * 200, 9);
    expect(drawn?.fullV).toBeCloseTo(330 + (0.06 - (drawn?.fullA ?? 0)) * 200, 9);
  });

  test('is not known without source resistance, with the reason', () => {
    const sheet = sheetOf([pair], { ...supply, sourceResistanceOhm: null });
    expect(sheet.drawn).toMatchObject({ restV: null, fullV: null, sag: [] });
    expect(sheet.absent['drawn.fullV']).toContain('source resistance');
  });
});

describe('sag', () => {
  test('of a pair costs power, and the sagged stage agrees with itself', () => {
    const [row] = sheetOf([pair]).drawn?.sag ?? [];
    expect(row?.fallV).toBeGreaterThan(1);
    expect(row?.saggedPowerW).toBeLessThan(row?.powerW ?? 0);
    const lowered = { ...pair, plateV: 300 - (row?.fallV ?? 0) };
    const again = loadSheet([lowered], supply, tubes).stages[0];
    const at = again?.topology === 'push-pull' ? again.atLoad : null;
    expect(offBy(at?.powerW ?? 0, row?.saggedPowerW ?? 1)).toBeLessThan(1e-5); // fall known to some mV of 300 V
    // The current of the stage at the lower voltage makes just that fall.
    const restA = sheetOf([pair]).drawn?.rows[0]?.restA ?? 0;
    expect(120 * ((at?.averagePlateA ?? 0) - restA)).toBeCloseTo(row?.fallV ?? 0, 2); // last step below 10 mV, and each step far smaller than the one before
  });

  test('without source resistance nothing falls', () => {
    const [row] = sheetOf([pair], { ...supply, sourceResistanceOhm: 0 }).drawn?.sag ?? [];
    expect(row?.fallV).toBe(0);
    expect(row?.saggedPowerW).toBe(row?.powerW);
  });

  test('a source that cannot feed full drive gives no figure, with the reason', () => {
    const sheet = sheetOf([pair], { ...supply, sourceResistanceOhm: 20e3 });
    expect(sheet.drawn?.sag).toEqual([]);
    expect(sheet.absent['drawn.sag']).toContain('no steady state');
  });
});

describe('hum', () => {
  test('of a single-ended triode is the ripple divided by load and plate resistance', () => {
    const { stages } = loadSheet([singleEnded], supply, tubes);
    const rpOhm = tubeSheet(stages[0]).operatingPoint?.rpOhm ?? 0;
    const { hum, rippleVrms } = sheetOf([singleEnded]);
    const loadVrms = ((rippleVrms ?? 0) * 3400) / (3400 + rpOhm);
    expect(hum[0]?.loadVrms).toBeCloseTo(loadVrms, 9);
    expect(hum[0]?.dbReWatt).toBeCloseTo(10 * Math.log10(loadVrms ** 2 / 3400), 9);
  });

  test('with an unbypassed cathode resistor (mu + 1) times the resistor adds to the plate resistance', () => {
    const bias = { kind: 'cathode-resistor', ohm: 1000, bypassed: false } as const;
    const open: StageDescription = { ...singleEnded, bias };
    const point = tubeSheet(loadSheet([open], supply, tubes).stages[0]).operatingPoint;
    const { hum, rippleVrms } = sheetOf([open]);
    const sourceOhm = (point?.rpOhm ?? 0) + ((point?.mu ?? 0) + 1) * 1000;
    expect(hum[0]?.loadVrms).toBeCloseTo(((rippleVrms ?? 0) * 3400) / (3400 + sourceOhm), 9);
  });

  test('is that of the point that feeds the stage', () => {
    const filter = { ratedV: null, workingV: null, bleederOhm: null, section: 'RC' as const };
    const capacitors = (first: string[], last: string[]) => [
      ...supply.capacitors,
      { ...filter, capacitanceF: 47e-6, seriesOhm: 80, feeds: first },
      { ...filter, capacitanceF: 10e-6, seriesOhm: 10e3, sectionA: 1e-3, feeds: last },
    ];
    const at = (first: string[], last: string[]) => {
      const sheet = sheetOf([singleEnded], { ...supply, capacitors: capacitors(first, last) });
      const place = sheet.ripple?.points.findIndex(
        ({ rippleVrms }) => rippleVrms === sheet.hum[0]?.rippleVrms,
      );
      return place;
    };
    expect(at(['output'], [])).toBe(1);
    expect(at([], ['output'])).toBe(2);
    expect(at([], [])).toBe(2); // nothing said: from the last capacitor
  });

  test('a pair of like sides cancels it; sides that differ leave what the node equations say', () => {
    const like = sheetOf([pair]);
    expect(like.hum[0]).toMatchObject({ loadVrms: null, dbReWatt: null });
    expect(like.absent['hum of output']).toContain('cancels');
    const { hum, rippleVrms } = sheetOf([{ ...pair, mismatchRatio: 0.1 }]);
    const stage = loadSheet([pair], supply, tubes).stages[0];
    const rpOhm = (stage?.topology === 'push-pull' ? stage.operatingPoint?.rpOhm : null) ?? 0;
    // Kirchhoff at both plates with u across each half: the load current is half the difference of the sides.
    const [g1, g2] = [1.05 / rpOhm, 0.95 / rpOhm];
    const u = ((rippleVrms ?? 0) * (g1 - g2)) / (4 / 3000 + g1 + g2);
    expect(offBy(hum[0]?.loadVrms ?? 0, 2 * u)).toBeLessThan(1e-9); // solver tolerance of the rest
  });

  test('of a pentode whose screen has ripple of its own is not told, with the reason', () => {
    const sheet = sheetOf([pentode]);
    expect(sheet.hum[0]).toMatchObject({ loadVrms: null, dbReWatt: null });
    expect(sheet.absent['hum of output']).toContain('screen');
  });
});

test('a stage to be fed that does not exist is told at its place, with the nearest id', () => {
  const [first] = supply.capacitors;
  const wrong = { ...supply, capacitors: first ? [{ ...first, feeds: ['outptu'] }] : [] };
  const [problem] = loadSheet([singleEnded], wrong, tubes).problems;
  expect(problem).toMatchObject({
    rule: 'load/unknown-stage',
    path: ['supply', 'capacitors', 0, 'feeds', 0],
    hint: 'Did you mean output?',
  });
});

describe('heaters', () => {
  const winding = (voltageV: number, feeds: HeaterLoad[], ratedA: number | null = null) => ({
    ...supply,
    heaters: [{ name: 'all', voltageV, ratedA, feeds }],
  });
  const one = (device: string, currentA: number | null = null): HeaterLoad => ({
    device,
    count: 1,
    currentA,
  });

  test('four EL84 and three ECC83 on 6.3 V take 3.94 A (sum of their data)', () => {
    const { given, expected } = check<{ voltageV: number; feeds: HeaterLoad[] }, { totalA: number }>(
      'heater-sum',
    );
    const [sheet] = sheetOf([], winding(given.voltageV, given.feeds, 4)).heaters;
    expect(sheet?.totalA).toBeCloseTo(expected.totalA, 9);
    expect(sheet?.share).toBeCloseTo(0.985, 9);
  });

  test('of known types come from their data; a 12.6 V heater takes twice its current at 6.3 V', () => {
    const rows = (voltageV: number, device: string) =>
      sheetOf([], winding(voltageV, [one(device)])).heaters[0];
    expect(rows(5, '300B')?.totalA).toBe(1.2); // Western Electric data sheet
    expect(rows(12.6, '12AX7')?.totalA).toBe(0.15);
    expect(rows(6.3, '12AX7')?.totalA).toBe(0.3);
    expect(rows(6.3, '12AX7')?.rows[0]?.source).toContain('halves in parallel');
  });

  test('above the rating of the winding is a warning at the rating', () => {
    expect(rulesOf([], winding(6.3, [one('6L6GC')], 0.9))).toEqual([]);
    expect(rulesOf([], winding(6.3, [one('6L6GC')], 0.8))).toEqual([
      'load/heater-rating supply.heaters.0.ratedCurrent',
    ]);
  });

  test.each([
    ['a type without data', '6C33C', 6.3, 'not in the data'],
    ['a winding of another voltage', '300B', 6.3, 'made for 5'],
  ])('%s leaves the sum open and says why', (_case, device, voltageV, reason) => {
    const described = winding(voltageV, [one('EL84', 0.76), one(device)]);
    const { totalA, rows } = sheetOf([], described).heaters[0] ?? {};
    expect(totalA).toBeNull();
    expect(rows?.[1]?.absent).toContain(reason);
    expect(rulesOf([], described)).toEqual(['load/heater-current supply.heaters.0.feeds.1.device']);
  });
});

test('the sentences name no fuse and call nothing safe', () => {
  const text = sheetOf([singleEnded, resistanceCoupled]).explanation.join(' ');
  expect(text).toContain('No fuse is chosen here');
  expect(text).not.toMatch(/\bsafe\b/i);
});
