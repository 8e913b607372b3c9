import { equalRatios, plainLayout, tableBytes } from '../../../src/demo/table.ts';
import type { Chance } from './chance.ts';
import { columnBytes, type Steps } from './columns.ts';

/** Name of a capture's file without its folder, and its bytes. */
interface CaptureFile {
  name: string;
  bytes: Uint8Array;
}

/** What one log's captures have in common: an invented amplifier on an invented day. */
interface Character {
  gain: number;
  /** Share of each harmonic at one watt into 8 Ω. */
  second: number;
  third: number;
  clipV: number;
}

const oneWattV = Math.sqrt(8);
const rows = 16_384;
const rateHz = 200_000;
/** Second harmonic of the generator, above the noise at both levels. */
const stimulusSecond = 0.0001;
const marked = '# synthetic capture: every number is invented';

/** Two waveforms of 16,384 rows with two channels each, a sweep of frequency and a sweep of level. */
export function capturesOf(chance: Chance): CaptureFile[] {
  const character: Character = {
    gain: chance.between(9, 14),
    second: chance.between(0.006, 0.016),
    third: chance.between(0.0005, 0.004),
    clipV: chance.between(6.5, 9),
  };
  return [
    { name: 'tone-1w.csv', bytes: stamped(character, chance, oneWattV) },
    {
      name: 'tone-100mw.csv',
      bytes: unstamped(character, chance, oneWattV / Math.sqrt(10)),
    },
    { name: 'distortion.csv', bytes: frequencySweep(character, chance) },
    { name: 'level.csv', bytes: levelSweep(character, chance) },
  ];
}

/** With time stamps in microseconds. */
function stamped(character: Character, chance: Chance, outputV: number): Uint8Array {
  const time = Int32Array.from({ length: rows }, (_, row) => (row * 1e6) / rateHz);
  return columnBytes(
    [marked, 'time (s),input (V),output (V)'],
    [{ values: time, decimals: 6 }, ...waves(character, chance, outputV)],
  );
}

/** Without; the rate stands in a remark. */
function unstamped(character: Character, chance: Chance, outputV: number): Uint8Array {
  return columnBytes(
    [marked, `# sample rate: ${rateHz / 1000} kHz`, 'input [V],output [V]'],
    waves(character, chance, outputV),
  );
}

/** A tone in steps of 10 µV at the input and at the output, there with two harmonics and some hum; noise on both. */
function waves({ gain, second, third }: Character, chance: Chance, outputV: number): Steps[] {
  const input = new Int32Array(rows);
  const output = new Int32Array(rows);
  const peak = Math.SQRT2 * outputV * 1e5;
  const drive = outputV / oneWattV;
  const turn = (2 * Math.PI * chance.between(990, 1010)) / rateHz;
  const humTurn = (2 * Math.PI * 100) / rateHz;
  const start = chance.between(0, 2 * Math.PI);
  const noise = chance.between(8, 30);
  for (let row = 0; row < rows; row++) {
    const cosine = Math.cos(start + turn * row);
    const square = 2 * cosine * cosine - 1;
    const cube = cosine * (2 * square - 1);
    const shape = cosine + second * drive * square + third * drive * drive * cube;
    input[row] = Math.round((peak / gain) * (cosine + stimulusSecond * square) + chance.noise());
    output[row] = Math.round(peak * shape + 60 * Math.cos(humTurn * row) + noise * chance.noise());
  }
  return [
    { values: input, decimals: 5 },
    { values: output, decimals: 5 },
  ];
}

/** Distortion at one watt from 20 Hz to 20 kHz, rising towards both ends. */
function frequencySweep({ second, third }: Character, chance: Chance): Uint8Array {
  const lowHz = chance.between(15, 40);
  const highHz = chance.between(12e3, 30e3);
  const readings = equalRatios(20, 20e3, 31).map((hz) => {
    const rise = Math.hypot(1, lowHz / hz, hz / highHz);
    return { place: hz, levelV: oneWattV, ...read(second * rise, third * rise * rise, chance) };
  });
  return sweepBytes(['f (Hz)', 'output (V)'], readings, 2);
}

/** Distortion at 1 kHz against the input, up to beyond clipping. */
function levelSweep({ gain, second, third, clipV }: Character, chance: Chance): Uint8Array {
  const readings = equalRatios(0.1, 1.15 * clipV, 38).map((levelV) => {
    const drive = levelV / oneWattV;
    const beyond = Math.max(0, levelV / clipV - 1);
    return { place: levelV / gain, levelV, ...read(second * drive, third * drive * drive + beyond, chance) };
  });
  return sweepBytes(['generator (V)', 'output (V)'], readings, 5);
}

interface Reading {
  place: number;
  levelV: number;
  second: number;
  third: number;
}

/** Two harmonics as a meter reads them: with one per cent of scatter, and a floor. */
function read(second: number, third: number, chance: Chance): Pick<Reading, 'second' | 'third'> {
  const reading = (ratio: number) => Math.hypot(ratio * (1 + 0.01 * chance.noise()), 2e-5);
  return { second: reading(second), third: reading(third) };
}

function sweepBytes(
  headings: readonly string[],
  readings: readonly Reading[],
  placeDigits: number,
): Uint8Array {
  const percent = (value: (reading: Reading) => number) => readings.map((one) => 100 * value(one));
  return tableBytes(
    { ...plainLayout, preamble: [marked], headers: [[...headings, 'THD (%)', 'H2 (%)', 'H3 (%)']] },
    [
      { values: readings.map(({ place }) => place), digits: placeDigits },
      { values: readings.map(({ levelV }) => levelV), digits: 4 },
      { values: percent(({ second, third }) => Math.hypot(second, third)), digits: 5 },
      { values: percent(({ second }) => second), digits: 5 },
      { values: percent(({ third }) => third), digits: 5 },
    ],
  );
}
