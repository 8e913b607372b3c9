import { join } from 'node:path';
import { expect, test } from 'vitest';
import { type CaptureRecord, openJournal } from '../../src/journal/index.ts';
import { impedanceAt } from '../../src/signal/index.ts';

const { journal } = await openJournal(join(import.meta.dirname, '../../content'));
const captures = journal?.logs.flatMap((log) => log.captures) ?? [];

function captureOf(name: string): CaptureRecord {
  const found = captures.find((capture) => capture.name === name);
  if (!found) throw new Error(`The demo journal has no capture "${name}"`);
  return found;
}
const figure = (name: string, id: string) => captureOf(name).figures.find((candidate) => candidate.id === id);

test('what two resistors and the impedance of the loudspeaker foretell is what was measured at the loudspeaker', () => {
  const error = captureOf('wren-two-resistors').output?.loudspeaker?.error;
  const { analysis } = captureOf('wren-response-two-loads');
  if (!error || analysis.kind !== 'frequency-sweep') throw new Error('The demo journal has changed');
  const [resistor, loudspeaker] = analysis.sweeps.map(({ channel }) => channel.level?.values ?? []);
  const db = Array.from(
    analysis.axis.values,
    (_, i) => 20 * Math.log10((loudspeaker?.[i] ?? 0) / (resistor?.[i] ?? 1)),
  );
  const highest = Math.max(...db);
  // Printed to 0.01 dB, read with 0.06 % of spread; the impedances with 0.4 %.
  expect(Math.abs(error.highest.db - error.lowest.db - (highest - Math.min(...db)))).toBeLessThan(0.1);
  expect(Math.abs(error.highest.atHz / (analysis.axis.values[db.indexOf(highest)] ?? 0) - 1)).toBeLessThan(
    0.05,
  );
});

test('two resistors and the jig find the same output impedance within the interval', () => {
  const measured = figure('wren-two-resistors', 'output-impedance-at-1khz');
  const jig = captureOf('wren-output-impedance-bypassed').output?.impedance;
  const ohm = jig && impedanceAt(jig, 1000);
  const modulus = ohm ? Math.hypot(ohm.re, ohm.im) : 0;
  expect(measured?.low).toBeLessThan(modulus);
  expect(measured?.high).toBeGreaterThan(modulus);
});

test('the transformer on the jig shows the inductances of the model within what else is in it', () => {
  // 11 H in parallel with 200 kΩ and 350 pF; the jig spreads by 0.4 %.
  expect(Math.abs((figure('wren-transformer-open', 'primary-inductance')?.value ?? 0) / 11 - 1)).toBeLessThan(
    0.01,
  );
  // 30 mH; the winding's capacitance adds up to 7 % at the upper end of the stretch.
  const leakage = figure('wren-transformer-shorted', 'leakage-inductance')?.value ?? 0;
  expect(leakage).toBeGreaterThan(0.03);
  expect(leakage).toBeLessThan(0.032);
});

test("Heron's second and third follow clean orders, and its rise at low frequencies comes later than that of version 2", () => {
  expect(captureOf('heron-v1-level-1khz').findings[0]).toMatch(
    /^The second .* clean second order .*; the third .* clean third order/,
  );
  const rise = (version: string) => figure(`heron-${version}-distortion-1w`, 'thd-onset')?.value ?? 0;
  expect(rise('v2')).toBeGreaterThan(2 * rise('v1'));
});
