import { complex } from './complex.ts';
import { converted } from './instruments.ts';
import { slateUnrest, smallRange } from './slate-captures.ts';
import { slateTwoTones, type TonePair } from './slate-two-tones.ts';
import { type DemoFile, plainLayout, tableBytes } from './table.ts';
import type { Tone } from './tone.ts';

/** The crest of a quarter of a watt in 8 Ω. */
const crestV = 2;
const equal: TonePair = {
  baseHz: 1000.2,
  tones: [
    { multiple: 19, peakV: crestV / 2 },
    { multiple: 20, peakV: crestV / 2 },
  ],
  points: 1024,
};
const fourToOne: TonePair = {
  baseHz: 20.004,
  tones: [
    { multiple: 3, peakV: 0.8 * crestV },
    { multiple: 350, peakV: 0.2 * crestV },
  ],
  points: 8192,
};

/** What a filter ahead of the converter lets through: nothing from 0.45 of the rate on. */
function bandLimited({ frequencyHz, lines }: Tone, rateHz: number): Tone {
  const kept = lines.map((line, n) => (n * frequencyHz < 0.45 * rateHz ? line : complex(0)));
  return { frequencyHz, lines: kept };
}

function recorded(path: string, idleA: number, pair: TonePair, rateHz: number, seed: number): DemoFile {
  const tone = bandLimited(slateTwoTones(idleA, pair), rateHz);
  const recording = { tone, unrest: slateUnrest, count: 8192, rateHz, startS: 0.0007, seed };
  const values = Array.from(converted(recording, smallRange), (code) => code * smallRange.stepV);
  const preamble = [
    '# invented capture, see the journal',
    '# two generators, added ahead of the amplifier',
    `# sample rate: ${rateHz / 1000} kHz`,
  ];
  const bytes = tableBytes({ ...plainLayout, preamble, headers: [['output [V]']] }, [{ values, digits: 6 }]);
  return { path, bytes };
}

/** Slate with two tones at once, with the folder of the log that the captures belong to. */
export function slateTwoToneCaptures(): DemoFile[] {
  const folder = '2026-08-01-two-tones-at-once';
  return [
    recorded(`${folder}/slate-40ma-19-20khz.csv`, 0.04, equal, 192e3, 311),
    recorded(`${folder}/slate-150ma-19-20khz.csv`, 0.15, equal, 192e3, 312),
    recorded(`${folder}/slate-150ma-60hz-7khz.csv`, 0.15, fourToOne, 48e3, 313),
  ];
}
