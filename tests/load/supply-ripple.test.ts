import { describe, expect, test } from 'vitest';
import {
  loadSheet,
  type ReservoirCapacitor,
  rippleVrms,
  type SupplyDescription,
  type SupplySheet,
  supplySheet,
} from '../../src/load/index.ts';
import { check, offBy, tubes } from './support.ts';

const capacitor = (capacitanceF: number, more: Partial<ReservoirCapacitor> = {}): ReservoirCapacitor => ({
  capacitanceF,
  ratedV: null,
  workingV: null,
  bleederOhm: null,
  ...more,
});

const supplyWith = (...capacitors: ReservoirCapacitor[]): SupplyDescription => ({
  plateV: 320,
  currentA: 0.1,
  sourceResistanceOhm: 100,
  mainsHz: 50,
  offLoadV: null,
  capacitors,
});

const warningsOf = (supply: SupplyDescription) =>
  loadSheet([], supply, tubes).problems.map(({ rule, path }) => `${rule} at ${path.join('.')}`);

function rippleOf(supply: SupplyDescription): NonNullable<SupplySheet['ripple']> {
  const { ripple } = supplySheet(supply);
  if (!ripple) throw new Error('no ripple');
  return ripple;
}

describe('across the reservoir', () => {
  test('the mean of 28.2 V crests at 300 mA and 500 µF is 25.7 V (Fardo & Patrick p. 197)', () => {
    const { given, expected } = check<
      { crestV: number; currentA: number; capacitanceF: number; mainsHz: number },
      { meanV: number }
    >('ripple-mean-60hz');
    const { currentA, mainsHz } = given;
    const ripple = rippleOf({ ...supplyWith(capacitor(given.capacitanceF)), currentA, mainsHz });
    expect(given.crestV - ripple.belowCrestV).toBeCloseTo(expected.meanV, 1); // three digits printed
  });

  test('1.5 V peak to peak below 24 V times 1.41 leave a mean of 33.09 V (Fardo & Patrick p. 193)', () => {
    const { given, expected } = check<{ crestV: number; peakToPeakV: number }, { meanV: number }>(
      'mean-below-crest',
    );
    const currentA = given.peakToPeakV * 100 * 1e-3;
    const ripple = rippleOf({ ...supplyWith(capacitor(1e-3)), currentA });
    expect(ripple.peakToPeakV).toBeCloseTo(given.peakToPeakV, 12); // the same arithmetic
    expect(given.crestV - ripple.belowCrestV).toBeCloseTo(expected.meanV, 2); // four digits printed
  });

  test('950 mA with 0.5 V rms take 4560 µF at 60 Hz (Fardo & Patrick p. 197)', () => {
    const { given, expected } = check<
      { currentA: number; rms: number; mainsHz: number },
      { capacitanceF: number }
    >('ripple-capacitor-60hz');
    const rms = rippleVrms(given.currentA, expected.capacitanceF, given.mainsHz);
    expect(offBy(rms, given.rms)).toBeLessThan(3e-3); // 2.4056 against 2.4
  });

  test('the mean stands 4.1667·I/C below the crests at 60 Hz and 5.0·I/C at 50 Hz (mA, µF)', () => {
    const { given, expected } = check<{ mainsHz: number[] }, { voltsPerMilliampereMicrofarad: number[] }>(
      'mean-constants',
    );
    const constants = given.mainsHz.map(
      (mainsHz) => rippleOf({ ...supplyWith(capacitor(1e-6)), currentA: 1e-3, mainsHz }).belowCrestV,
    );
    constants.forEach((constant, index) => {
      expect(constant).toBeCloseTo(expected.voltsPerMilliampereMicrofarad[index] ?? Number.NaN, 4); // digits stated
    });
  });

  test('half-wave rectification doubles it at half the frequency; a bridge is as full-wave', () => {
    const supply = supplyWith(capacitor(1e-4));
    const full = rippleOf(supply);
    const half = rippleOf({ ...supply, rectifier: 'half-wave' });
    expect(full).toMatchObject({ rectifier: 'full-wave', frequencyHz: 100 });
    expect(half.frequencyHz).toBe(50);
    expect(half.points[0]?.rippleVrms).toBeCloseTo(2 * (full.points[0]?.rippleVrms ?? 0), 12);
    expect(half.points[0]?.rippleVrms).toBeCloseTo(0.1 / (2 * Math.sqrt(3) * 50 * 1e-4), 12); // 1/(2√3·f·C)
    expect(rippleOf({ ...supply, rectifier: 'bridge' }).points).toEqual(full.points);
  });

  test('capacitors in parallel add; of split rails one alone counts', () => {
    const two = supplyWith(capacitor(1e-4), capacitor(1e-4));
    const one = rippleOf(supplyWith(capacitor(1e-4))).peakToPeakV;
    expect(rippleOf(two).peakToPeakV).toBeCloseTo(one / 2, 12);
    expect(rippleOf({ ...two, splitRails: true }).peakToPeakV).toBeCloseTo(one, 12);
  });

  test('a supply that begins with a filter section has none, with the reason', () => {
    const sheet = supplySheet(supplyWith(capacitor(1e-4, { section: 'LC', seriesH: 10 })));
    expect(sheet.ripple).toBeNull();
    expect(sheet.absent.ripple).toContain('begins with a filter section');
  });
});

describe('behind a filter', () => {
  test('an RC section divides by √(1 + (ωRC)²) and drops its current times its resistance', () => {
    const section = capacitor(47e-6, { section: 'RC', seriesOhm: 200, sectionA: 0.01 });
    const [at, behind] = rippleOf(supplyWith(capacitor(1e-4), section)).points;
    const divisor = Math.hypot(1, 2 * Math.PI * 100 * 200 * 47e-6);
    expect(offBy((at?.rippleVrms ?? 0) / (behind?.rippleVrms ?? 1), divisor)).toBeLessThan(1e-12); // closed form
    expect(behind?.attenuationDb).toBeCloseTo(20 * Math.log10(divisor), 9);
    expect(behind?.dropV).toBeCloseTo(2, 12);
  });

  test('half-wave ripple is filtered at the mains frequency itself', () => {
    const section = capacitor(47e-6, { section: 'RC', seriesOhm: 200 });
    const supply: SupplyDescription = { ...supplyWith(capacitor(1e-4), section), rectifier: 'half-wave' };
    const divisor = Math.hypot(1, 2 * Math.PI * 50 * 200 * 47e-6);
    expect(rippleOf(supply).points[1]?.attenuationDb).toBeCloseTo(20 * Math.log10(divisor), 9); // closed form
  });

  test('a choke without resistance divides by ω²LC − 1 and resonates at 1/(2π√(LC))', () => {
    const section = capacitor(50e-6, { section: 'LC', seriesH: 10 });
    const behind = rippleOf(supplyWith(capacitor(1e-4), section)).points[1];
    const divisor = (2 * Math.PI * 100) ** 2 * 10 * 50e-6 - 1;
    expect(behind?.attenuationDb).toBeCloseTo(20 * Math.log10(divisor), 9); // closed form
    expect(behind?.resonanceHz).toBeCloseTo(1 / (2 * Math.PI * Math.sqrt(10 * 50e-6)), 12);
    expect(behind?.peakDb).toBeNull();
  });

  test('two sections load each other as the node equations of the ladder say', () => {
    const first = capacitor(10e-6, { section: 'RC', seriesOhm: 1000 });
    const second = capacitor(20e-6, { section: 'RC', seriesOhm: 500 });
    const points = rippleOf(supplyWith(capacitor(1e-4), first, second)).points;
    const omega = 2 * Math.PI * 100;
    // 1/|1 + jω(R1C1 + R1C2 + R2C2) − ω²R1C1R2C2|: transfer of a two-section RC ladder, written out.
    const real = 1 - omega ** 2 * 1000 * 10e-6 * 500 * 20e-6;
    const imaginary = omega * (1000 * 10e-6 + 1000 * 20e-6 + 500 * 20e-6);
    const ratio = (points[2]?.rippleVrms ?? 0) / (points[0]?.rippleVrms ?? 1);
    expect(offBy(ratio, 1 / Math.hypot(real, imaginary))).toBeLessThan(1e-12);
  });

  test('the peak of a resonance is that of its frequency response', () => {
    const [henry, farad, ohm] = [10, 50e-6, 150];
    const section = capacitor(farad, { section: 'LC', seriesH: henry, seriesOhm: ohm });
    const found = rippleOf(supplyWith(capacitor(1e-4), section)).points[1]?.peakDb ?? 0;
    const at = (hz: number) => {
      const omega = 2 * Math.PI * hz;
      return 1 / Math.hypot(1 - omega ** 2 * henry * farad, omega * ohm * farad);
    };
    const most = Math.max(...Array.from({ length: 4000 }, (_, index) => at(1 + index / 200)));
    expect(found).toBeCloseTo(20 * Math.log10(most), 4); // search in steps of 5 mHz
    expect(found).toBeGreaterThan(3);
  });

  test('a damped section has no peak', () => {
    const section = capacitor(50e-6, { section: 'LC', seriesH: 1, seriesOhm: 300 });
    expect(rippleOf(supplyWith(capacitor(1e-4), section)).points[1]?.peakDb).toBe(0);
  });
});

describe('warnings', () => {
  const bled = capacitor(1e-4, { bleederOhm: 100e3 });

  test('an LC section that resonates above half the ripple frequency is told', () => {
    const small = capacitor(1e-6, { section: 'LC', seriesH: 1 });
    expect(warningsOf(supplyWith(bled, small))).toEqual([
      'load/filter-resonance at supply.capacitors.1.kind',
    ]);
    expect(warningsOf(supplyWith(bled, capacitor(50e-6, { section: 'LC', seriesH: 10 })))).toEqual([]);
  });

  test('a section without its resistance or inductance is told', () => {
    expect(warningsOf(supplyWith(bled, capacitor(1e-5, { section: 'RC' })))).toEqual([
      'load/filter-section at supply.capacitors.1.kind',
    ]);
    expect(warningsOf(supplyWith(bled, capacitor(1e-5, { section: 'LC', seriesOhm: 50 })))).toEqual([
      'load/filter-section at supply.capacitors.1.kind',
    ]);
  });
});
