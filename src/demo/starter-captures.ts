import { unrestOf } from './noise.ts';
import { normalSource } from './random.ts';
import { type DemoFile, equalRatios, plainLayout, tableBytes } from './table.ts';
import { cosineTone, rmsOf, sampled, shaped } from './tone.ts';

const rateHz = 40e3;
const oneWattV = Math.sqrt(8);
const unrest = { whiteV: 1.2e-4, flickerV: 2e-5, hum: [{ frequencyHz: 100, rmsV: 9e-4 }] };

/** One watt at 1 kHz out of a stage whose curve is bent by these shares of its square and cube. */
function tone(path: string, [square, cube]: readonly [number, number], seed: number): DemoFile {
  const bent = shaped(cosineTone(1000.3, 1), (x) => x + square * x ** 2 + cube * x ** 3);
  const gain = oneWattV / rmsOf(bent, 1);
  const quiet = unrestOf(unrest, 4096, rateHz, normalSource(seed));
  const volts = sampled(bent, quiet.length, rateHz, 0.00011).map(
    (value, i) => gain * value + (quiet[i] ?? 0),
  );
  const bytes = tableBytes({ ...plainLayout, headers: [['time (s)', 'load (V)']] }, [
    { values: Array.from(volts, (_, i) => i / rateHz), digits: 6 },
    { values: volts, digits: 4 },
  ]);
  return { path, bytes };
}

/** Distortion against frequency at one watt; it rises below 60 Hz and above 9 kHz. */
function sweep(path: string, thdPercent: number, seed: number): DemoFile {
  const normal = normalSource(seed);
  const hertz = equalRatios(20, 20_000, 31);
  const thd = hertz.map((f) => thdPercent * Math.hypot(1, 60 / f, f / 9000) * (1 + 0.004 * normal()));
  const bytes = tableBytes({ ...plainLayout, headers: [['frequency (Hz)', 'load (V)', 'THD (%)']] }, [
    { values: hertz, digits: 2 },
    { values: hertz.map(() => oneWattV * (1 + 0.001 * normal())), digits: 4 },
    { values: thd, digits: 4 },
  ]);
  return { path, bytes };
}

/** The captures of the journal that a newcomer begins with. */
export function starterCaptures(): DemoFile[] {
  const log = '2026-02-14-a-little-feedback';
  return [
    tone(`${log}/without-1khz-1w.csv`, [0.036, 0.012], 701),
    tone(`${log}/with-1khz-1w.csv`, [0.018, 0.007], 702),
    sweep(`${log}/without-sweep-1w.csv`, 1.85, 703),
    sweep(`${log}/with-sweep-1w.csv`, 0.93, 704),
  ];
}
