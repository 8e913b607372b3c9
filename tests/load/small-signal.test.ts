import { describe, expect, test } from 'vitest';
import { smallSignal, voltageGain } from '../../src/load/index.ts';
import { check, checks, deviceFrom, offBy, spaceChargeTriode } from './support.ts';

describe('derivatives', () => {
  test('6F6 as a triode by its power law (H. C. Verma): current, rp, gm and mu', () => {
    const { given, expected } = check<
      { plateV: number; gridV: number },
      { plateA: number; rpOhm: number; gmS: number; mu: number }
    >('verma-6f6');
    const device = deviceFrom((plateV, gridV) => 41e-6 * Math.max(0, plateV + 7 * gridV) ** 1.41);
    const at = { ...given, screenV: 0 };
    const found = smallSignal(device, at);
    // Four digits printed.
    expect(offBy(device.plateCurrent(at), expected.plateA)).toBeLessThan(2e-4);
    expect(offBy(found.rpOhm ?? 0, expected.rpOhm)).toBeLessThan(2e-4);
    expect(offBy(found.gmS, expected.gmS)).toBeLessThan(2e-4);
    // The central difference of a smooth power law is good to 1e-8.
    expect(offBy(found.mu ?? 0, expected.mu)).toBeLessThan(1e-7);
  });

  test('Child-Langmuir triode (Schaum 7.18): current and cut-off', () => {
    const { given, expected } = check<
      { perveance: number; mu: number; plateV: number; gridV: number },
      { plateA: number; cutOffGridV: number }
    >('schaum-7-18');
    const device = spaceChargeTriode(given.perveance, given.mu);
    const at = { plateV: given.plateV, screenV: 0, gridV: given.gridV };
    expect(offBy(device.plateCurrent(at), expected.plateA)).toBeLessThan(1e-12); // exact in doubles
    expect(device.plateCurrent({ ...at, gridV: expected.cutOffGridV })).toBe(0);
  });

  test('the product of gm and rp is mu, while data books round each of them (2A3: 4.16 against 4.2)', () => {
    const { given, expected } = check<{ gmS: number; rpOhm: number }, { mu: number }>('2a3-product');
    expect(given.gmS * given.rpOhm).not.toBe(expected.mu);
    expect(offBy(given.gmS * given.rpOhm, expected.mu)).toBeLessThan(0.02); // data-book rounding
  });

  test('a 300B of mu 3.85 and 5500 µmho has a plate resistance of 700 Ω (Western Electric sheet)', () => {
    const { given, expected } = check<{ gmS: number; mu: number }, { rpOhm: number }>('300b-average');
    const device = deviceFrom((plateV, gridV) => 0.06 + given.gmS * (gridV + 61 + (plateV - 300) / given.mu));
    const found = smallSignal(device, { plateV: 300, screenV: 0, gridV: -61 });
    expect(offBy(found.rpOhm ?? 0, expected.rpOhm)).toBeLessThan(1e-9); // 3.85 over 5.5 mS, a straight device
  });

  test('a current that the plate does not influence has neither rp nor mu', () => {
    const found = smallSignal(
      deviceFrom((_, gridV) => 0.05 + 0.005 * gridV),
      { plateV: 200, screenV: 0, gridV: -2 },
    );
    expect(found.rpOhm).toBeNull();
    expect(found.mu).toBeNull();
    expect(found.gmS).toBeCloseTo(0.005, 10); // straight line: rounding only
  });
});

describe('voltage gain', () => {
  test.each(checks.filter(({ id }) => id.startsWith('gain-3k-')))('$id ($source)', ({ given, expected }) => {
    const { bypassed } = voltageGain(given as { mu: number; rpOhm: number; loadOhm: number });
    expect(offBy(bypassed, expected.bypassed as number)).toBeLessThan(4e-3); // three digits, 12.95 being printed as 12.9
  });

  test('12AX7 with 220 kΩ and 470 kΩ: 65.2 bypassed, 26.6 with 3.3 kΩ unbypassed (Fun with Tubes 4.1, 4.3)', () => {
    const { given, expected } = check<
      { mu: number; rpOhm: number; plateResistorOhm: number; nextGridLeakOhm: number; cathodeOhm: number },
      { unbypassed: number }
    >('gain-unbypassed-12ax7');
    const bypassed = check<unknown, { bypassed: number }>('gain-12ax7').expected.bypassed;
    const loadOhm = 1 / (1 / given.plateResistorOhm + 1 / given.nextGridLeakOhm);
    const found = voltageGain({ ...given, loadOhm });
    expect(offBy(found.bypassed, bypassed)).toBeLessThan(1e-3); // three digits printed
    expect(offBy(found.unbypassed ?? 0, expected.unbypassed)).toBeLessThan(2e-3); // three digits printed
  });

  test('Steck p. 176 with the nominal mu of 100: 65 and 33', () => {
    const { given, expected } = check<
      { mu: number; rpOhm: number; loadOhm: number; cathodeOhm: number },
      { bypassed: number; unbypassed: number }
    >('steck-gain-nominal');
    const found = voltageGain(given);
    expect(Math.round(found.bypassed)).toBe(expected.bypassed);
    expect(Math.round(found.unbypassed ?? 0)).toBe(expected.unbypassed);
  });

  test('Schaum 7.22: rp, gm, mu from the curves, and the gain', () => {
    const { given, expected } = check<
      { plateStepV: number; plateStepA: number; gridStepV: number; gridStepA: number; loadOhm: number },
      { rpOhm: number; gmS: number; mu: number; bypassed: number }
    >('schaum-7-22');
    const rpOhm = given.plateStepV / given.plateStepA;
    const mu = rpOhm * (given.gridStepA / given.gridStepV);
    const straight = smallSignal(
      deviceFrom((plateV, gridV) => (plateV + mu * gridV) / rpOhm),
      { plateV: 200, screenV: 0, gridV: -4 },
    );
    expect(offBy(straight.rpOhm ?? 0, expected.rpOhm)).toBeLessThan(2e-4); // four digits printed
    expect(offBy(straight.gmS, expected.gmS)).toBeLessThan(1e-9); // exact apart from rounding
    expect(offBy(straight.mu ?? 0, expected.mu)).toBeLessThan(1e-3); // the book rounds mu upwards
    const found = voltageGain({ mu: straight.mu ?? 0, rpOhm: straight.rpOhm ?? 0, loadOhm: given.loadOhm });
    expect(offBy(found.bypassed, expected.bypassed)).toBeLessThan(1.5e-3); // from the rounded mu
  });

  test('Schaum 7.20: 10 kΩ, 1.65 mS and mu 16.5', () => {
    const { given, expected } = check<
      { plateStepV: number; plateStepA: number; gridStepV: number; gridStepA: number },
      { rpOhm: number; gmS: number; mu: number }
    >('schaum-7-20');
    const { rpOhm, gmS, mu } = smallSignal(
      deviceFrom(
        (plateV, gridV) =>
          (given.plateStepA / given.plateStepV) * plateV + (given.gridStepA / given.gridStepV) * gridV,
      ),
      { plateV: 185, screenV: 0, gridV: -2 },
    );
    // A straight device: rounding only.
    expect(offBy(rpOhm ?? 0, expected.rpOhm)).toBeLessThan(1e-8);
    expect(offBy(gmS, expected.gmS)).toBeLessThan(1e-8);
    expect(offBy(mu ?? 0, expected.mu)).toBeLessThan(1e-8);
  });
});
