import { converted, type Meter, read } from './instruments.ts';
import type { Unrest } from './noise.ts';
import { normalSource } from './random.ts';
import { slate } from './slate.ts';
import { type DemoFile, equalRatios, plainLayout, tableBytes } from './table.ts';

const quarterWatt = Math.sqrt(8 * 0.25);
/** Volts at the output for a volt at the input. */
const gain = 12;
/** What Slate's output carries besides the signal. */
export const slateUnrest: Unrest = {
  whiteV: 85e-6,
  flickerV: 12e-6,
  hum: [
    { frequencyHz: 50, rmsV: 8e-6 },
    { frequencyHz: 100, rmsV: 14e-6 },
  ],
};
const meter: Meter = { gain: 1.001, spread: 0.0004, lineV: 1.6e-6, bandV: 88e-6 };

/** The sound interface on its small range. */
export const smallRange = { stepV: 2 ** -20, codes: 2 ** 23, gain: 0.999, bow: 0, noiseSteps: 16 };

/** Volts of the sound interface on its small range: steps far below the amplifier's noise. */
function soundInterface(idleA: number, rateHz: number, seed: number): number[] {
  const tone = slate(idleA, 1000.2, quarterWatt);
  const recording = { tone, unrest: slateUnrest, count: 16384, rateHz, startS: 0.00004, seed };
  return Array.from(converted(recording, smallRange), (code) => code * smallRange.stepV);
}

function numbered(path: string, idleA: number, seed: number): DemoFile {
  const volts = soundInterface(idleA, 200e3, seed);
  const bytes = tableBytes(
    {
      ...plainLayout,
      delimiter: ';',
      preamble: ['remark;invented capture, see the journal', 'start;-2 ms', 'increment;5 µs'],
      headers: [
        ['sample', 'output'],
        ['', 'V'],
      ],
    },
    [
      { values: volts.map((_, i) => i), digits: 0 },
      { values: volts, digits: 6 },
    ],
  );
  return { path, bytes };
}

function rounded(path: string, idleA: number, seed: number): DemoFile {
  const volts = soundInterface(idleA, 192e3, seed);
  const bytes = tableBytes({ ...plainLayout, delimiter: '\t', headers: [['t/ms', 'output/V']] }, [
    { values: volts.map((_, i) => i / 192), digits: 3 },
    { values: volts, digits: 6 },
  ]);
  return { path, bytes };
}

/** The scope's own codes, one column and nothing that says how many volts a code is but a remark. */
function codes(path: string): DemoFile {
  const tone = slate(0.04, 1000.3, quarterWatt);
  const converter = { stepV: 0.02, codes: 128, gain: 0.994, bow: 0.004, noiseSteps: 0.35 };
  const recording = { tone, unrest: slateUnrest, count: 8192, rateHz: 250e3, startS: 0.0002, seed: 302 };
  const bytes = tableBytes(
    {
      ...plainLayout,
      preamble: ['# invented capture, see the journal', '# 20 mV for each code', '# sample rate: 250 kHz'],
      headers: [['code B']],
    },
    [{ values: converted(recording, converter), digits: 0 }],
  );
  return { path, bytes };
}

function level(path: string, idleA: number, seed: number): DemoFile {
  const normal = normalSource(seed);
  const upToClipping = [...equalRatios(0.09, 9.4, 34), ...equalRatios(9.8, 11.6, 15)];
  const rows = upToClipping.map((wantedRms) => ({
    inputMv: (1000 * wantedRms) / gain,
    reading: read(slate(idleA, 1000, wantedRms), meter, normal),
  }));
  const percent = (order: number) => rows.map(({ reading }) => 100 * reading.harmonic(order));
  const bytes = tableBytes(
    {
      ...plainLayout,
      delimiter: ';',
      decimalMark: ',',
      newline: '\r\n',
      headers: [
        ['input', 'output', 'THD+N', 'THD', '2nd harmonic', '3rd harmonic', '5th harmonic', '7th harmonic'],
        ['mV', 'V', '%', '%', '%', '%', '%', '%'],
      ],
    },
    [
      { values: rows.map(({ inputMv }) => inputMv), digits: 2 },
      { values: rows.map(({ reading }) => reading.levelV), digits: 4 },
      { values: rows.map(({ reading }) => 100 * reading.thdPlusNoise), digits: 5 },
      { values: rows.map(({ reading }) => 100 * reading.thd), digits: 5 },
      ...[2, 3, 5, 7].map((order) => ({ values: percent(order), digits: 5 })),
    ],
  );
  return { path, bytes };
}

/** Every capture of Slate, with the folder of the log that it belongs to. */
export function slateCaptures(): DemoFile[] {
  const first = '2026-07-04-forty-milliamperes';
  const second = '2026-07-18-more-idle-current';
  return [
    numbered(`${first}/slate-40ma-1khz-250mw.csv`, 0.04, 301),
    codes(`${first}/slate-40ma-1khz-250mw-codes.csv`),
    level(`${first}/slate-40ma-level.csv`, 0.04, 303),
    rounded(`${second}/slate-80ma-1khz-250mw.csv`, 0.08, 304),
    rounded(`${second}/slate-150ma-1khz-250mw.csv`, 0.15, 305),
    level(`${second}/slate-150ma-level.csv`, 0.15, 306),
  ];
}
