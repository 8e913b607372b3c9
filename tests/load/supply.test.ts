import { describe, expect, test } from 'vitest';
import { rippleVrms, type SupplyDescription, storedEnergy, supplySheet } from '../../src/load/index.ts';
import { check, checks, offBy } from './support.ts';

const supply: SupplyDescription = {
  plateV: 320,
  currentA: 0.16,
  sourceResistanceOhm: 120,
  mainsHz: 50,
  offLoadV: null,
  capacitors: [
    { capacitanceF: 100e-6, ratedV: 450, workingV: 320, bleederOhm: 220e3 },
    { capacitanceF: 47e-6, ratedV: 450, workingV: 300, bleederOhm: null, seriesOhm: 100 },
  ],
};

const highestV = 1.1 * (320 + 0.16 * 120);

describe('stored energy', () => {
  test.each(checks.filter(({ id }) => /^stored-energy|^ten-joules/.test(id)))(
    '$id: ½CV²',
    ({ given, expected }) => {
      const { capacitanceF, voltageV } = given as { capacitanceF: number; voltageV: number };
      expect(offBy(storedEnergy(capacitanceF, voltageV), expected.energyJ as number)).toBeLessThan(1e-3); // digits stated
    },
  );

  test('80 V on 4.4 µF are a charge of 352 µC, and 10.2 V are 45 µC', () => {
    const { given, expected } = check<
      { capacitanceF: number; voltageV: number; limitV: number },
      { chargeC: number; limitC: number }
    >('charge-45uc');
    const charge = (voltageV: number) => (2 * storedEnergy(given.capacitanceF, voltageV)) / voltageV; // Q = 2 E / V
    expect(offBy(charge(given.voltageV), expected.chargeC)).toBeLessThan(1e-9);
    expect(offBy(charge(given.limitV), expected.limitC)).toBeLessThan(5e-3); // three digits stated
  });

  test('of a supply covers every capacitor, those of the filter included, at the highest voltage', () => {
    const sheet = supplySheet(supply);
    expect(sheet.highestV).toBeCloseTo(highestV, 9);
    expect(sheet.storedEnergyJ).toBeCloseTo((147e-6 * highestV ** 2) / 2, 9);
    expect(sheet.storedEnergyAtToleranceJ).toBeCloseTo((1.2 * 147e-6 * highestV ** 2) / 2, 9);
    const each = sheet.capacitors.reduce((sum, one) => sum + one.storedEnergyJ, 0);
    expect(each).toBeCloseTo(sheet.storedEnergyJ ?? 0, 12);
  });
});

describe('ripple', () => {
  interface Ripple {
    currentA: number;
    capacitanceF: number;
    mainsHz: number;
  }

  test('800 mA and 300 µF at 60 Hz: 6.4 V (Fardo & Patrick p. 196, constant rounded to 2.4)', () => {
    const { given, expected } = check<Ripple, { rms: number }>('ripple-60hz');
    expect(offBy(rippleVrms(given.currentA, given.capacitanceF, given.mainsHz), expected.rms)).toBeLessThan(
      3e-3,
    ); // 2.4056 against 2.4
  });

  test('500 Ω and 100 µF at 60 Hz: 4.8 %, where the book misprints 0.048 %', () => {
    const { given, expected } = check<Ripple & { voltageV: number; loadOhm: number }, { share: number }>(
      'ripple-share-60hz',
    );
    const rms = rippleVrms(given.voltageV / given.loadOhm, given.capacitanceF, given.mainsHz);
    expect(offBy(rms / given.voltageV, expected.share)).toBeLessThan(3e-3); // 2.4056 against 2.4
  });

  test('the constant is 2.4056 at 60 Hz and 2.8868 at 50 Hz (V per mA/µF)', () => {
    const { given, expected } = check<{ mainsHz: number[] }, { voltsPerMilliampereMicrofarad: number[] }>(
      'ripple-constants',
    );
    expect(given.mainsHz).toEqual([60, 50]);
    given.mainsHz.forEach((mainsHz, index) => {
      const constant = expected.voltsPerMilliampereMicrofarad[index] ?? Number.NaN;
      expect(rippleVrms(1e-3, 1e-6, mainsHz)).toBeCloseTo(constant, 4);
    });
  });

  test('of a supply is that across its first capacitor at its own mains frequency', () => {
    expect(supplySheet(supply).rippleVrms).toBeCloseTo((2.8868 * 160) / 100, 3); // constant to five digits
    expect(supplySheet({ ...supply, mainsHz: 60 }).rippleVrms).toBeCloseTo((2.4056 * 160) / 100, 3);
  });
});

describe('the highest voltage', () => {
  const highest = (change: Partial<SupplyDescription>) => supplySheet({ ...supply, ...change });

  test('is the stated off-load voltage with the mains 10 % high', () => {
    const sheet = highest({ offLoadV: 400 });
    expect(sheet.highestV).toBeCloseTo(440, 9);
    expect(sheet.offLoadBasis).toBe('as stated');
  });

  test('is the estimate where that is higher than what is stated', () => {
    const sheet = highest({ offLoadV: 330 });
    expect(sheet.offLoadV).toBeCloseTo(339.2, 9);
    expect(sheet.offLoadBasis).toContain('estimated');
  });

  test('without current or source resistance it is the loaded voltage, and says that off load it is higher', () => {
    const sheet = highest({ sourceResistanceOhm: null });
    expect(sheet.offLoadV).toBe(320);
    expect(sheet.offLoadBasis).toContain('off load it is higher');
  });

  test('is never below a working voltage written at a capacitor', () => {
    expect(highest({ plateV: null }).offLoadV).toBe(320);
  });
});

describe('limits of standards', () => {
  const rows = supplySheet(supply).thresholds;

  test('are named with their sources: 50 V, 100 V, 10 J and 5 s', () => {
    expect(rows.map(({ limit, unit }) => `${limit} ${unit}`)).toEqual(['50 V', '100 V', '10 J', '5 s']);
    expect(rows.map(({ source }) => source)).toEqual([
      'OSHA and NFPA 70E',
      expect.stringContaining('DOE'),
      expect.stringContaining('DOE'),
      'IEC 60204-1',
    ]);
    expect(rows.every(({ above }) => above)).toBe(true);
  });

  test('energy counts with the capacitance 20 % above nominal: 9 J nominal is above 10 J', () => {
    const one = { capacitanceF: (2 * 9) / 396 ** 2, ratedV: null, workingV: null, bleederOhm: null };
    const sheet = supplySheet({ ...supply, plateV: 360, currentA: null, capacitors: [one] });
    expect(sheet.storedEnergyJ).toBeCloseTo(9, 9);
    expect(sheet.thresholds.find(({ unit }) => unit === 'J')?.above).toBe(true);
  });

  test('without a bleeder there is no time, and 5 s are passed', () => {
    const bare = supply.capacitors.map((one) => ({ ...one, bleederOhm: null }));
    const sheet = supplySheet({ ...supply, capacitors: bare });
    expect(sheet.timeTo60VoltsS).toBeNull();
    expect(sheet.absent.timeTo60VoltsS).toContain('does not discharge by itself');
    expect(sheet.thresholds.at(-1)).toMatchObject({ value: null, above: true });
    expect(sheet.explanation.at(-1)).toBe(
      'Without a working bleeder the supply does not discharge by itself.',
    );
  });
});

describe('what the sheet says', () => {
  test('names the limits and the times, and never calls anything safe', () => {
    const text = supplySheet(supply).explanation.join(' ');
    expect(text).toMatch(/below 60 V \(IEC 60204-1\) after \d+/);
    expect(text).toMatch(/below 50 V \(OSHA and NFPA 70E\) after \d+/);
    expect(text).toContain('above both the 100 V and the 10 J of the DOE');
    expect(text).toContain('nominal resistance');
    expect(text).toContain('those of the filter included');
    expect(text).not.toMatch(/\bsafe\b/i);
  });

  test('a supply without voltage or capacitors has nulls with reasons', () => {
    const empty = { ...supply, plateV: null, capacitors: [] };
    const sheet = supplySheet(empty);
    expect(sheet).toMatchObject({
      highestV: null,
      storedEnergyJ: null,
      timeTo60VoltsS: null,
      rippleVrms: null,
    });
    expect(Object.keys(sheet.absent).sort()).toEqual([
      'bleederNeeded',
      'highestV',
      'ripple',
      'rippleVrms',
      'storedEnergyJ',
      'timeTo60VoltsS',
      'timeTo60VoltsWithoutBleederS',
    ]);
    expect(sheet.explanation).toEqual([]);
  });
});
