import { angleDeg, type Complex, complex, magnitude } from './complex.ts';
import { converted, type Meter, read } from './instruments.ts';
import { loudspeakerImpedance } from './loudspeaker.ts';
import type { Unrest } from './noise.ts';
import { normalSource } from './random.ts';
import { type DemoFile, equalRatios, plainLayout, tableBytes } from './table.ts';
import type { Tone } from './tone.ts';
import { type Cathode, wren, wrenAt, wrenImpedance, wrenPrimary, wrenTransfer } from './wren.ts';

const cathodes: readonly Cathode[] = ['bypassed', 'unbypassed'];
const meter: Meter = { gain: 1.004, spread: 0.0006, lineV: 40e-6, bandV: 2.6e-3 };
const gridUnrest: Unrest = { whiteV: 0.2e-3, flickerV: 0.1e-3, hum: [{ frequencyHz: 100, rmsV: 2e-3 }] };
/** What stands at the load without a signal. */
export const speakerUnrest: Unrest = {
  whiteV: 250e-6,
  flickerV: 120e-6,
  hum: [
    { frequencyHz: 100, rmsV: 2.4e-3 },
    { frequencyHz: 200, rmsV: 0.6e-3 },
    { frequencyHz: 300, rmsV: 0.2e-3 },
  ],
};

/** A twelve-bit recorder: 4096 steps over 40.96 V. */
export function recorder(tone: Tone, unrest: Unrest, seed: number): number[] {
  const converter = { stepV: 0.01, codes: 2048, gain: 1.002, bow: 0.0001, noiseSteps: 0.4 };
  const recording = { tone, unrest, count: 4096, rateHz: 100e3, startS: 0.00021, seed };
  return Array.from(converted(recording, converter), (code) => code * converter.stepV);
}

function oneWatt(folder: string, cathode: Cathode, seed: number): DemoFile {
  const { grid, speaker } = wrenAt(cathode, 1000.6, Math.sqrt(8));
  const bytes = tableBytes(
    {
      ...plainLayout,
      delimiter: '\t',
      newline: '\r\n',
      encoding: 'utf-16le with mark',
      preamble: [
        'Remark: invented capture, see the journal',
        'Samples: 4096',
        `Cathode resistor: ${cathode}`,
      ],
      headers: [
        ['Time', 'Grid', 'Load'],
        ['ms', 'V', 'V'],
      ],
    },
    [
      { values: Array.from({ length: 4096 }, (_, i) => i / 100), digits: 2 },
      { values: recorder(grid, gridUnrest, seed), digits: 2 },
      { values: recorder(speaker, speakerUnrest, seed + 1), digits: 2 },
    ],
  );
  return { path: `${folder}/wren-1khz-1w-${cathode}.csv`, bytes };
}

function level(folder: string, cathode: Cathode, seed: number): DemoFile {
  const normal = normalSource(seed);
  const most = cathode === 'bypassed' ? 12 : 22.6;
  const rows = equalRatios(most / 36, most, 28).map((gridRms) => ({
    gridRms,
    reading: read(wren(cathode, 1000, gridRms).speaker, meter, normal),
  }));
  const percent = (order: number) => rows.map(({ reading }) => 100 * reading.harmonic(order));
  const bytes = tableBytes(
    { ...plainLayout, delimiter: ';', headers: [['grid [V]', 'power [W]', 'THD [%]', 'H2 [%]', 'H3 [%]']] },
    [
      { values: rows.map(({ gridRms }) => gridRms), digits: 3 },
      { values: rows.map(({ reading }) => reading.levelV ** 2 / 8), digits: 4 },
      { values: rows.map(({ reading }) => 100 * reading.thd), digits: 3 },
      { values: percent(2), digits: 3 },
      { values: percent(3), digits: 3 },
    ],
  );
  return { path: `${folder}/wren-level-${cathode}.csv`, bytes };
}

/** Modulus and angle as a jig reads them. */
function jig(impedance: Complex, normal: () => number): { ohm: number; degrees: number } {
  const ohm = magnitude(impedance) * (1 + 0.004 * normal());
  return { ohm, degrees: angleDeg(impedance) + 0.3 * normal() };
}

function ownImpedance(folder: string, cathode: Cathode, seed: number): DemoFile {
  const normal = normalSource(seed);
  const rows = equalRatios(20, 20e3, 61).map((hz) => ({ hz, ...jig(wrenImpedance(cathode, hz), normal) }));
  const bytes = tableBytes({ ...plainLayout, headers: [['frequency', 'modulus', 'angle']] }, [
    { values: rows.map(({ hz }) => hz), digits: 1 },
    { values: rows.map(({ ohm }) => ohm), digits: 2 },
    { values: rows.map(({ degrees }) => degrees), digits: 1 },
  ]);
  return { path: `${folder}/wren-output-impedance-${cathode}.csv`, bytes };
}

function loudspeaker(folder: string): DemoFile {
  const normal = normalSource(209);
  const rows = equalRatios(15, 20e3, 101).map((hz) => ({ hz, ...jig(loudspeakerImpedance(hz), normal) }));
  const bytes = tableBytes(
    {
      ...plainLayout,
      delimiter: ';',
      decimalMark: ',',
      preamble: ['Note;invented capture, see the journal', 'Test current;10 mA'],
      headers: [
        ['Frequency', 'Impedance', 'Phase'],
        ['Hz', 'Ω', '°'],
      ],
    },
    [
      { values: rows.map(({ hz }) => hz), digits: 2 },
      { values: rows.map(({ ohm }) => ohm), digits: 3 },
      { values: rows.map(({ degrees }) => degrees), digits: 1 },
    ],
  );
  return { path: `${folder}/loudspeaker-impedance.csv`, bytes };
}

/** Level at resistor and loudspeaker for the same drive, 0.5 V at 1 kHz across the resistor. */
function twoLoads(folder: string): DemoFile {
  const normal = normalSource(210);
  const reference = magnitude(wrenTransfer('bypassed', 1000, complex(8))) / 0.5;
  const levelAt = (hz: number, load: Complex) => {
    const volts = magnitude(wrenTransfer('bypassed', hz, load)) / reference;
    return 20 * Math.log10(volts * meter.gain * (1 + meter.spread * normal()));
  };
  const frequencies = equalRatios(20, 20e3, 91);
  const bytes = tableBytes(
    { ...plainLayout, headers: [['frequency (Hz)', 'resistor (dBV)', 'loudspeaker (dBV)']] },
    [
      { values: frequencies, digits: 2 },
      { values: frequencies.map((hz) => levelAt(hz, complex(8))), digits: 2 },
      { values: frequencies.map((hz) => levelAt(hz, loudspeakerImpedance(hz))), digits: 2 },
    ],
  );
  return { path: `${folder}/wren-response-two-loads.csv`, bytes };
}

/** Level and phase into two resistors for the same drive, 0.5 V at 1 kHz into the larger. */
function twoResistors(folder: string): DemoFile {
  const normal = normalSource(211);
  const reference = magnitude(wrenTransfer('bypassed', 1000, complex(8))) / 0.5;
  const frequencies = equalRatios(20, 20e3, 61);
  const readings = (ohm: number) =>
    frequencies.map((hz) => {
      const at = wrenTransfer('bypassed', hz, complex(ohm));
      const volts = (magnitude(at) / reference) * meter.gain * (1 + meter.spread * normal());
      return { volts, degrees: angleDeg(at) + 0.03 * normal() };
    });
  const [into8, into4] = [readings(8), readings(4)];
  const headers = ['frequency (Hz)', 'load A (V)', 'phase A (deg)', 'load B (V)', 'phase B (deg)'];
  const bytes = tableBytes({ ...plainLayout, headers: [headers] }, [
    { values: frequencies, digits: 2 },
    ...[into8, into4].flatMap((column) => [
      { values: column.map(({ volts }) => volts), digits: 5 },
      { values: column.map(({ degrees }) => degrees), digits: 2 },
    ]),
  ]);
  return { path: `${folder}/wren-two-resistors.csv`, bytes };
}

/** The output transformer on the jig, its secondary open or shorted. */
function transformer(folder: string, secondary: 'open' | 'shorted', seed: number): DemoFile {
  const normal = normalSource(seed);
  const rows = equalRatios(20, 30e3, 65).map((hz) => ({ hz, ...jig(wrenPrimary(secondary, hz), normal) }));
  const bytes = tableBytes(
    { ...plainLayout, headers: [['frequency (Hz)', 'impedance (ohm)', 'phase (deg)']] },
    [
      { values: rows.map(({ hz }) => hz), digits: 1 },
      { values: rows.map(({ ohm }) => ohm), digits: 1 },
      { values: rows.map(({ degrees }) => degrees), digits: 1 },
    ],
  );
  return { path: `${folder}/wren-transformer-${secondary}.csv`, bytes };
}

/** Every capture of Wren, with the folder of the log that it belongs to. */
export function wrenCaptures(): DemoFile[] {
  const cathode = '2026-04-18-the-cathode-capacitor';
  const meeting = '2026-05-16-wren-meets-a-loudspeaker';
  const inside = '2026-05-30-inside-the-transformer';
  return [
    ...cathodes.map((position, i) => oneWatt(cathode, position, 201 + 2 * i)),
    ...cathodes.map((position, i) => level(cathode, position, 205 + i)),
    ...cathodes.map((position, i) => ownImpedance(cathode, position, 207 + i)),
    loudspeaker(meeting),
    twoLoads(meeting),
    twoResistors(meeting),
    transformer(inside, 'open', 212),
    transformer(inside, 'shorted', 213),
  ];
}
