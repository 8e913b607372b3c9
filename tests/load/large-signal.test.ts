import { describe, expect, test } from 'vitest';
import {
  type AtLoad,
  type Connection,
  deviceOf,
  driveFor,
  largeSignal,
  type RestingStage,
  smallSignal,
  voltageGain,
} from '../../src/load/index.ts';
import { check, deviceFrom, linearTriode, offBy, stageAt, tube } from './support.ts';

function driven(stage: RestingStage, loadOhm: number, driveV: number | null = null): AtLoad {
  const drive = driveFor(stage, loadOhm, driveV);
  const found = drive && largeSignal(stage, loadOhm, drive);
  if (!found) throw new Error('nothing swings');
  return found;
}

const harmonic = (at: AtLoad, order: number) => at.harmonics.find((one) => one.order === order);

const el34 = deviceOf(tube('EL34'), 'pentode');
const ecc83 = deviceOf(tube('12AX7'), 'triode');
const wired300b = deviceOf(tube('300B'), 'triode');
const stages: Record<string, [RestingStage, number]> = {
  '300B, fixed bias': [stageAt(wired300b, 300, -61), 3400],
  '300B, bypassed cathode resistor': [
    stageAt(wired300b, 300, -61, { cathode: { ohm: 1045, bypassed: true } }),
    2400,
  ],
  '300B, unbypassed cathode resistor and winding resistance': [
    stageAt(wired300b, 300, -61, { feedOhm: 150, cathode: { ohm: 1045, bypassed: false } }),
    3400,
  ],
  'EL34, fixed bias': [stageAt(el34, 250, -13.5, { screenV: 265 }), 2000],
  'EL34, bypassed cathode resistor': [
    stageAt(el34, 250, -13.5, { screenV: 265, feedOhm: 80, cathode: { ohm: 109, bypassed: true } }),
    2000,
  ],
  'EL34, unbypassed cathode resistor': [
    stageAt(el34, 250, -13.5, { screenV: 265, cathode: { ohm: 109, bypassed: false } }),
    2000,
  ],
  '12AX7, resistance-coupled': [
    stageAt(ecc83, 221, -1.6, { feedOhm: 100e3, cathode: { ohm: 1500, bypassed: true } }),
    76e3,
  ],
};

describe('energy', () => {
  test.each(Object.entries(stages))(
    '%s: supply power is load, plate, winding and cathode power together',
    (_, [stage, loadOhm]) => {
      const { balance } = driven(stage, loadOhm);
      const spent = balance.loadW + balance.plateW + balance.feedW + balance.cathodeW;
      // The averages are solved to 1e-8; 0.1 % would be enough for a load sheet.
      expect(offBy(spent, balance.supplyW)).toBeLessThan(1e-6);
    },
  );

  test.each(Object.entries(stages))(
    '%s: the load takes no less than the power at the fundamental',
    (_, [stage, loadOhm]) => {
      const { balance, powerW, thdRatio } = driven(stage, loadOhm);
      // P = (1 + THD²)·P1, the orders above 7 being left out of THD.
      expect(offBy(balance.loadW, (1 + thdRatio ** 2) * powerW)).toBeLessThan(1e-3);
    },
  );

  test("Schaum's stage with ip = 8 + cos ωt mA: 2.4 W, 0.645 W, 1.755 W and 0.208 %", () => {
    const { given, expected } = check<
      { supplyV: number; restA: number; swingA: number; loadOhm: number },
      { supplyW: number; loadWithDirectCurrentW: number; plateW: number; efficiency: number }
    >('schaum-power');
    // Straight characteristics with rp = RL: mu·E/(rp + RL) is 1 mA for mu 20 and 1 V.
    const plateV = given.supplyV - given.restA * given.loadOhm;
    const stage = stageAt(
      linearTriode(20, given.loadOhm),
      plateV,
      (given.restA * given.loadOhm - plateV) / 20,
      {
        feedOhm: given.loadOhm,
      },
    );
    const { balance, efficiency } = driven(stage, given.loadOhm, 1);
    // Straight device: only the tolerance of the averages, 1e-8, remains.
    expect(balance.supplyW).toBeCloseTo(expected.supplyW, 6);
    expect(balance.loadW + balance.feedW).toBeCloseTo(expected.loadWithDirectCurrentW, 6);
    expect(balance.plateW).toBeCloseTo(expected.plateW, 6);
    expect(efficiency).toBeCloseTo(expected.efficiency, 5); // three digits printed
  });
});

describe('closed forms', () => {
  test.each(['linear-2a3', 'linear-300b'])(
    '%s: (mu·E)²·RL/(2·(rp + RL)²) on straight characteristics',
    (id) => {
      const { given, expected } = check<
        { mu: number; driveV: number; rpOhm: number; loadOhm: number; plateV: number },
        { powerW: number }
      >(id);
      const stage = stageAt(linearTriode(given.mu, given.rpOhm), given.plateV, -given.driveV);
      const at = driven(stage, given.loadOhm);
      expect(at.limitedBy).toBe('grid current');
      expect(at.driveV).toBe(given.driveV);
      expect(offBy(at.powerW, expected.powerW)).toBeLessThan(1e-3); // three digits stated
      expect(at.thdRatio).toBeLessThan(1e-8); // tolerance of the averages
    },
  );

  test('2·rp with the bias free to choose gives (mu·E)²/(9·rp)', () => {
    const stage = stageAt(linearTriode(4.2, 800), 260, -45);
    expect(offBy(driven(stage, 1600).powerW, (4.2 * 45) ** 2 / (9 * 800))).toBeLessThan(1e-8);
  });

  test('a square-law device gives a second harmonic c·E/(2·b) alone and an average higher by c·E²/2', () => {
    const [a, b, c] = [0.06, 0.004, 0.0002];
    const stage = stageAt(
      deviceFrom((_, gridV) => a + b * (gridV + 8) + c * (gridV + 8) ** 2),
      300,
      -8,
    );
    const at = driven(stage, 1000, 5);
    expect(harmonic(at, 2)?.ratio).toBeCloseTo((c * 5) / (2 * b), 12); // exact apart from rounding
    expect(harmonic(at, 2)?.sign).toBe(1);
    for (const order of [3, 4, 5, 6, 7]) expect(harmonic(at, order)?.ratio).toBeLessThan(1e-12);
    expect(offBy(at.averagePlateA, a + (c * 25) / 2)).toBeLessThan(1e-8); // tolerance of the averages
    expect(at.byFiveOrdinates?.secondRatio).toBeCloseTo((c * 5) / (2 * b), 12);
    expect(at.byFiveOrdinates?.thirdRatio).toBeLessThan(1e-12);
  });

  test('rectification lowers the mean plate voltage by the winding resistance, and moves the swing with it', () => {
    const [a, b, c] = [0.06, 0.004, 0.0002];
    const device = deviceFrom((_, gridV) => a + b * (gridV + 8) + c * (gridV + 8) ** 2);
    const rise = (c * 25) / 2;
    const at = driven(stageAt(device, 300, -8, { feedOhm: 200 }), 1000, 5);
    const leastA = a - b * 5 + c * 25;
    // Mean voltage 300 − 200·rise; the trough of the current stands RL·(average − least) above it.
    expect(at.peakPlateV).toBeCloseTo(300 - 200 * rise + 1000 * (a + rise - leastA), 5);
  });

  test('a bypassed cathode resistor raises the bias by its resistance times the rise of the average', () => {
    const [stage, loadOhm] = stages['300B, bypassed cathode resistor'] ?? [];
    if (!stage || !loadOhm) throw new Error('no such stage');
    const at = driven(stage, loadOhm);
    const fixed = driven(stageAt(wired300b, 300, -61), loadOhm);
    expect(at.averagePlateA).toBeGreaterThan(stage.rest.plateA);
    // The bias that has risen holds back part of the rise that fixed bias allows.
    expect(at.averagePlateA).toBeLessThan(fixed.averagePlateA);
    const meanCathodeV = 1045 * at.averagePlateA;
    const instantaneous = at.balance.cathodeW / at.averagePlateA;
    expect(offBy(instantaneous, meanCathodeV)).toBeLessThan(1e-6); // tolerance of the averages
  });
});

describe('a pentode on a bypassed cathode resistor', () => {
  test('has the average of both currents in it, the screen current being rectified too', () => {
    const [stage, loadOhm] = stages['EL34, bypassed cathode resistor'] ?? [];
    if (!stage || !loadOhm) throw new Error('no such stage');
    const at = driven(stage, loadOhm);
    const screenA = at.averageScreenA ?? 0;
    expect(screenA).toBeGreaterThan(1.05 * stage.rest.screenA);
    const meanCathodeV = at.balance.cathodeW / at.averagePlateA;
    expect(offBy(meanCathodeV, 109 * (at.averagePlateA + screenA))).toBeLessThan(1e-6); // tolerance of the averages
  });
});

describe('small drives', () => {
  test.each([true, false])('give the gain of the equivalent circuit (bypassed: %s)', (bypassed) => {
    const stage = stageAt(ecc83, 220.97, -1.6113, { feedOhm: 100e3, cathode: { ohm: 1500, bypassed } });
    const { mu, rpOhm } = smallSignal(stage.device, stage.rest);
    const gain = voltageGain({ mu: mu ?? 0, rpOhm: rpOhm ?? 0, loadOhm: 100e3, cathodeOhm: 1500 });
    const { outputVrms } = driven(stage, 100e3, 0.01);
    // 10 mV leaves a curvature error of about 1e-5.
    expect(
      offBy((outputVrms * Math.SQRT2) / 0.01, bypassed ? gain.bypassed : (gain.unbypassed ?? 0)),
    ).toBeLessThan(1e-4);
  });
});

describe('an independent calculation', () => {
  /** Bisection at 720 phases along a given load line, harmonics by plain summation over the whole period. */
  function byHand(stage: RestingStage, at: AtLoad, orders: number[]) {
    const phases = 720;
    const current = (inputV: number) => {
      let [low, high] = [0, 10];
      for (let step = 0; step < 60; step++) {
        const middle = (low + high) / 2;
        const plateV = stage.rest.plateV + at.loadOhm * (at.averagePlateA - middle);
        const drawn = stage.device.plateCurrent({ ...stage.rest, plateV, gridV: stage.rest.gridV + inputV });
        if (drawn > middle) low = middle;
        else high = middle;
      }
      return low;
    };
    const wave = Array.from({ length: phases }, (_, k) =>
      current(at.driveV * Math.cos((2 * Math.PI * k) / phases)),
    );
    return orders.map(
      (order) =>
        (2 / phases) * wave.reduce((sum, i, k) => sum + i * Math.cos((2 * Math.PI * order * k) / phases), 0),
    );
  }

  test.each(['300B, fixed bias', 'EL34, fixed bias'])(
    '%s: fundamental, harmonics and average agree',
    (name) => {
      const [stage, loadOhm] = stages[name] ?? [];
      if (!stage || !loadOhm) throw new Error('no such stage');
      const at = driven(stage, loadOhm);
      const [twiceMean = 0, first = 0, second = 0, third = 0] = byHand(stage, at, [0, 1, 2, 3]);
      // Both grids resolve this smooth waveform far better than the tolerance of the averages.
      expect(offBy(at.averagePlateA, twiceMean / 2)).toBeLessThan(1e-6);
      expect(offBy(at.powerW, (first ** 2 * loadOhm) / 2)).toBeLessThan(1e-6);
      expect(harmonic(at, 2)?.ratio).toBeCloseTo(Math.abs(second / first), 7);
      expect(harmonic(at, 3)?.ratio).toBeCloseTo(Math.abs(third / first), 7);
    },
  );

  test('also far into cut-off, where the waveform has a corner', () => {
    const stage = stageAt(linearTriode(4, 800), 250, -60);
    const at = driven(stage, 2500, 60);
    const [, first = 0, second = 0, third = 0] = byHand(stage, at, [0, 1, 2, 3]);
    expect(at.leastPlateA).toBe(0);
    // A corner leaves an error of the order of 1/steps², 2e-4.
    expect(offBy(at.powerW, (first ** 2 * 2500) / 2)).toBeLessThan(1e-3);
    expect(harmonic(at, 2)?.ratio).toBeCloseTo(Math.abs(second / first), 3);
    expect(harmonic(at, 3)?.ratio).toBeCloseTo(Math.abs(third / first), 3);
  });
});

describe('what ends the swing', () => {
  test('0 V at the grid for a triode at its usual load', () => {
    const at = driven(stageAt(wired300b, 300, -61), 3400);
    expect(at).toMatchObject({ limitedBy: 'grid current', driveV: 61 });
  });

  test('cut-off at a small load: the trough is 1 % of the current at rest', () => {
    const stage = stageAt(linearTriode(4, 800), 250, -45);
    const at = driven(stage, 100);
    expect(at.limitedBy).toBe('cut-off');
    expect(at.leastPlateA).toBeCloseTo(0.01 * stage.rest.plateA, 9); // solver tolerance
  });

  test('saturation of a pentode at a large load, before the grid reaches 0 V', () => {
    const at = driven(stageAt(el34, 250, -13.5, { screenV: 265 }), 5000);
    expect(at.limitedBy).toBe('saturation');
    expect(at.driveV).toBeLessThan(13.5);
    expect(at.leastPlateV).toBeLessThan(40); // inside the knee
  });

  test('with an unbypassed cathode resistor the drive is larger by what the cathode follows', () => {
    const at = driven(stageAt(wired300b, 300, -61, { cathode: { ohm: 1045, bypassed: false } }), 3400);
    expect(at.limitedBy).toBe('grid current');
    expect(at.driveV).toBeGreaterThan(61 * 1.5);
  });

  test('a bias of 0 V leaves no swing', () => {
    expect(driveFor(stageAt(wired300b, 100, 0), 3400, null)).toBeNull();
  });

  test('a drive that is described is used as it is', () => {
    expect(driven(stageAt(wired300b, 300, -61), 3400, 20)).toMatchObject({ limitedBy: 'drive', driveV: 20 });
  });
});

describe('efficiency', () => {
  test('counts the average current at this drive, not the one at rest', () => {
    const stage = stageAt(deviceOf(tube('6L6GC'), 'pentode'), 350, -18, { screenV: 250 });
    const at = driven(stage, 4200);
    expect(at.averagePlateA).toBeGreaterThan(1.15 * stage.rest.plateA);
    expect(at.efficiency).toBeCloseTo(at.powerW / (350 * at.averagePlateA), 9);
    expect(at.efficiency).toBeLessThan(0.9 * (at.powerW / (350 * stage.rest.plateA)));
  });

  test('6L6GC sheet, from memory: 10.8 W is 46.8 % on 66 mA, and would be 57 % on the 54 mA at rest', () => {
    const { expected } = check<
      unknown,
      {
        powerW: number;
        restA: number;
        fullDriveA: number;
        efficiency: number;
        efficiencyOnRestCurrent: number;
      }
    >('sheet-6l6gc-350');
    expect(expected.powerW / (350 * expected.fullDriveA)).toBeCloseTo(expected.efficiency, 3);
    expect(expected.powerW / (350 * expected.restA)).toBeCloseTo(expected.efficiencyOnRestCurrent, 2);
    // The model's own average at full drive; a model is not held to a sheet more tightly than 15 %.
    const stage = stageAt(deviceOf(tube('6L6GC'), 'pentode'), 350, -18, { screenV: 250 });
    expect(offBy(driven(stage, 4200).averagePlateA, expected.fullDriveA)).toBeLessThan(0.15);
  });
});

describe('data sheets from memory, as a sanity check of the model', () => {
  test.each(['sheet-300b-3400', 'sheet-300b-2400', 'sheet-300b-3000'])('%s', (id) => {
    const { given, expected } = check<
      {
        device: string;
        connection: Connection;
        plateV: number;
        screenV: number;
        gridV: number;
        loadOhm: number;
      },
      { powerW: number; secondDb: number }
    >(id);
    const at = driven(
      stageAt(deviceOf(tube(given.device), given.connection), given.plateV, given.gridV),
      given.loadOhm,
    );
    expect(offBy(at.powerW, expected.powerW)).toBeLessThan(0.15); // a published model of an average tube
    const secondDb = 20 * Math.log10(harmonic(at, 2)?.ratio ?? 0);
    expect(Math.abs(secondDb - expected.secondDb)).toBeLessThan(3); // dB
  });
});
