import { heron, heronAt, heronFromGrid, type Probed } from './heron.ts';
import { converted, type Meter, type Recording, read } from './instruments.ts';
import type { Unrest } from './noise.ts';
import { normalSource } from './random.ts';
import { type DemoFile, equalRatios, plainLayout, tableBytes } from './table.ts';
import type { Tone } from './tone.ts';

type Version = 'v1' | 'v2';

const atOneWatt = Math.sqrt(8);
const speakerUnrest: Unrest = {
  whiteV: 180e-6,
  flickerV: 90e-6,
  hum: [
    { frequencyHz: 50, rmsV: 0.8e-3 },
    { frequencyHz: 100, rmsV: 1.3e-3 },
    { frequencyHz: 150, rmsV: 0.15e-3 },
    { frequencyHz: 200, rmsV: 0.25e-3 },
  ],
};
const quiet: Unrest = { whiteV: 20e-6, flickerV: 10e-6, hum: [] };
const meter: Meter = { gain: 0.997, spread: 0.0006, lineV: 25e-6, bandV: 1.7e-3 };

/** The eight-bit scope on a range of 256 steps; its two inputs differ a little. */
const scope = (recording: Recording, stepV: number, input: 'A' | 'B') => {
  const converter = { stepV, codes: 128, gain: input === 'A' ? 1.006 : 0.991, bow: 0.004, noiseSteps: 0.35 };
  return Array.from(converted(recording, converter), (code) => code * stepV);
};

function firstSound(folder: string): DemoFile[] {
  const { input, speaker } = heronAt('v1', 1000.4, atOneWatt);
  const record = { count: 8192, rateHz: 250e3, startS: 0.00031 };
  const bytes = tableBytes(
    {
      ...plainLayout,
      preamble: ['# invented capture, see the journal', '# A: amplifier input, B: across the dummy load'],
      headers: [['time (s)', 'CH A (V)', 'CH B (V)']],
    },
    [
      { values: Array.from({ length: record.count }, (_, i) => i / record.rateHz), digits: 6 },
      { values: scope({ ...record, tone: input, unrest: quiet, seed: 101 }, 0.005, 'A'), digits: 3 },
      { values: scope({ ...record, tone: speaker, unrest: speakerUnrest, seed: 102 }, 0.04, 'B'), digits: 2 },
    ],
  );
  return [{ path: `${folder}/heron-v1-1khz-1w-scope.csv`, bytes }];
}

/** Phase of the fundamental re that of the stimulus, degrees. */
function phaseOf({ lines: [, line] }: Tone): number {
  return (Math.atan2(line?.im ?? 0, line?.re ?? 0) * 180) / Math.PI;
}

function response(folder: string): DemoFile[] {
  const normal = normalSource(103);
  const inputRms = 0.339;
  const rows = equalRatios(10, 60e3, 76).map((hz) => {
    const { speaker } = heron('v1', hz, inputRms);
    return { hz, levelV: read(speaker, meter, normal).levelV, phase: phaseOf(speaker) + 0.2 * normal() };
  });
  const bytes = tableBytes(
    {
      ...plainLayout,
      delimiter: ';',
      decimalMark: ',',
      newline: '\r\n',
      headers: [
        ['frequency', 'generator', 'load', 'phase'],
        ['Hz', 'mV', 'V', '°'],
      ],
    },
    [
      { values: rows.map(({ hz }) => hz), digits: 2 },
      { values: rows.map(() => inputRms * 1000), digits: 1 },
      { values: rows.map(({ levelV }) => levelV), digits: 4 },
      { values: rows.map(({ phase }) => phase), digits: 1 },
    ],
  );
  return [{ path: `${folder}/heron-v1-response-1w.csv`, bytes }];
}

function gridAndSpeaker(folder: string): DemoFile[] {
  const { grid, speaker } = heronAt('v1', 1000.3, atOneWatt);
  const record = { count: 6000, rateHz: 200e3, startS: 0.00012 };
  const gridRead = { ...grid, lines: grid.lines.map(({ re, im }) => ({ re: re / 10, im: im / 10 })) };
  const probed: Unrest = { whiteV: 1e-4, flickerV: 1e-4, hum: [{ frequencyHz: 100, rmsV: 0.9e-3 }] };
  const time = Array.from({ length: record.count }, (_, i) => (1000 * i) / record.rateHz);
  const bytes = tableBytes(
    { ...plainLayout, headers: [['t grid [ms]', 'grid probe [V]', 't speaker [ms]', 'speaker [V]']] },
    [
      { values: time, digits: 3 },
      { values: scope({ ...record, tone: gridRead, unrest: probed, seed: 104 }, 0.02, 'A'), digits: 2 },
      { values: time, digits: 3 },
      { values: scope({ ...record, tone: speaker, unrest: speakerUnrest, seed: 105 }, 0.04, 'B'), digits: 2 },
    ],
  );
  return [{ path: `${folder}/heron-v1-grid-and-speaker-1w.csv`, bytes }];
}

function gridToSpeaker(folder: string): DemoFile[] {
  const normal = normalSource(113);
  const gridRms = 1.5;
  const rows = equalRatios(400, 16e3, 41).map((hz) => {
    const speaker = heronFromGrid(hz, gridRms);
    const gridV = gridRms * (1 + 0.0006 * normal());
    return {
      hz,
      gridV,
      levelV: read(speaker, meter, normal).levelV,
      phase: phaseOf(speaker) + 0.1 * normal(),
    };
  });
  const bytes = tableBytes({ ...plainLayout, headers: [['f (Hz)', 'grid (V)', 'load (V)', 'phase (°)']] }, [
    { values: rows.map(({ hz }) => hz), digits: 1 },
    { values: rows.map(({ gridV }) => gridV), digits: 4 },
    { values: rows.map(({ levelV }) => levelV), digits: 5 },
    { values: rows.map(({ phase }) => phase), digits: 2 },
  ]);
  return [{ path: `${folder}/heron-v1-grid-to-load.csv`, bytes }];
}

function levelSweep(folder: string, version: Version, seed: number): DemoFile[] {
  const normal = normalSource(seed);
  const rows = equalRatios(0.011, version === 'v1' ? 0.8 : 1.09, 38).map((inputRms) => ({
    inputRms,
    reading: read(heron(version, 1000, inputRms).speaker, meter, normal),
  }));
  const decibels = (volts: number) => 20 * Math.log10(volts);
  const bytes = tableBytes(
    {
      ...plainLayout,
      headers: [['generator (dBV)', 'output (dBV)', 'THD (%)', '2nd harmonic (%)', '3rd harmonic (%)']],
    },
    [
      { values: rows.map(({ inputRms }) => decibels(inputRms)), digits: 2 },
      { values: rows.map(({ reading }) => decibels(reading.levelV)), digits: 2 },
      { values: rows.map(({ reading }) => 100 * reading.thd), digits: 4 },
      { values: rows.map(({ reading }) => 100 * reading.harmonic(2)), digits: 4 },
      { values: rows.map(({ reading }) => 100 * reading.harmonic(3)), digits: 4 },
    ],
  );
  return [{ path: `${folder}/heron-${version}-level-1khz.csv`, bytes }];
}

/** Sound interface behind a divider: one column, the rate in a comment above it. */
function soundInterface(tone: Tone, seed: number, count: number): Uint8Array {
  const recording = { tone, unrest: speakerUnrest, count, rateHz: 192e3, startS: 0.00007, seed };
  const converter = { stepV: 2 ** -18, codes: 2 ** 23, gain: 1.002, bow: 0, noiseSteps: 6 };
  const volts = Array.from(converted(recording, converter), (code) => code * converter.stepV);
  return tableBytes(
    {
      ...plainLayout,
      preamble: ['# invented capture, see the journal', '# divider allowed for', '# sample rate: 192 kHz'],
      headers: [['speaker [V]']],
    },
    [{ values: volts, digits: 5 }],
  );
}

function drivers(folder: string): DemoFile[] {
  const speaker = (version: Version, watts: number): Probed['speaker'] =>
    heronAt(version, 999.7, Math.sqrt(8 * watts)).speaker;
  return [
    { path: `${folder}/heron-v1-1khz-1w.csv`, bytes: soundInterface(speaker('v1', 1), 108, 16384) },
    { path: `${folder}/heron-v2-1khz-1w.csv`, bytes: soundInterface(speaker('v2', 1), 109, 16384) },
  ];
}

function lowLevel(folder: string): DemoFile[] {
  const { speaker } = heronAt('v2', 999.7, Math.sqrt(8 * 0.05));
  return [{ path: `${folder}/heron-v2-1khz-50mw.csv`, bytes: soundInterface(speaker, 110, 16384) }];
}

function distortionAgainstFrequency(folder: string, version: Version, seed: number): DemoFile[] {
  const normal = normalSource(seed);
  const rows = equalRatios(20e3, 20, 31).map((hz) => ({
    hz,
    reading: read(heronAt(version, hz, atOneWatt).speaker, meter, normal),
  }));
  const percent = (order: number) => rows.map(({ reading }) => 100 * reading.harmonic(order));
  const bytes = tableBytes(
    { ...plainLayout, delimiter: '\t', headers: [['f/kHz', 'output/V', 'THD/%', 'H2/%', 'H3/%']] },
    [
      { values: rows.map(({ hz }) => hz / 1000), digits: 5 },
      { values: rows.map(({ reading }) => reading.levelV), digits: 3 },
      { values: rows.map(({ reading }) => 100 * reading.thd), digits: 3 },
      { values: percent(2), digits: 3 },
      { values: percent(3), digits: 3 },
    ],
  );
  return [{ path: `${folder}/heron-${version}-distortion-1w.csv`, bytes }];
}

/** Every capture of Heron, with the folder of the log that it belongs to. */
export function heronCaptures(): DemoFile[] {
  return [
    ...firstSound('2026-01-18-first-sound'),
    ...response('2026-01-18-first-sound'),
    ...gridAndSpeaker('2026-02-07-where-the-second-comes-from'),
    ...gridToSpeaker('2026-02-07-where-the-second-comes-from'),
    ...levelSweep('2026-02-07-where-the-second-comes-from', 'v1', 106),
    ...drivers('2026-02-28-a-driver-that-cancels'),
    ...lowLevel('2026-03-14-does-it-hold'),
    ...levelSweep('2026-03-14-does-it-hold', 'v2', 107),
    ...distortionAgainstFrequency('2026-03-14-does-it-hold', 'v1', 111),
    ...distortionAgainstFrequency('2026-03-14-does-it-hold', 'v2', 112),
  ];
}
