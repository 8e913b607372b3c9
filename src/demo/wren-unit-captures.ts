import { type Complex, scaled } from './complex.ts';
import { type DemoFile, plainLayout, tableBytes } from './table.ts';
import type { Tone } from './tone.ts';
import { wrenAt } from './wren.ts';
import { recorder, speakerUnrest } from './wren-captures.ts';

/** A unit of the batch: how much more or less its tube bends than that of the first Wren. */
interface BuiltUnit {
  name: string;
  bend: number;
  seed: number;
}

const units: readonly BuiltUnit[] = [
  { name: 'w2-01', bend: 0.97, seed: 231 },
  { name: 'w2-02', bend: 1.05, seed: 232 },
  { name: 'w2-03', bend: 1.01, seed: 233 },
  { name: 'w2-04', bend: 0.92, seed: 234 },
];

/** The tone of a tube whose law bends so many times as much: each order n grows as the power n − 1. */
function bent({ frequencyHz, lines }: Tone, bend: number): Tone {
  const line = (value: Complex, order: number) => scaled(value, bend ** Math.max(0, order - 1));
  return { frequencyHz, lines: lines.map(line) };
}

function twoWatts(folder: string, { name, bend, seed }: BuiltUnit): DemoFile {
  const { speaker } = wrenAt('bypassed', 1000.6, Math.sqrt(8 * 2));
  const values = recorder(bent(speaker, bend), speakerUnrest, seed);
  const preamble = ['# invented capture, see the journal', '# sample rate: 100 kHz'];
  const bytes = tableBytes({ ...plainLayout, preamble, headers: [['load [V]']] }, [{ values, digits: 2 }]);
  return { path: `${folder}/${name}-1khz-2w.csv`, bytes };
}

/** One tone of every Wren of the batch of four, with the folder of the log that the captures belong to. */
export function wrenUnitCaptures(): DemoFile[] {
  return units.map((unit) => twoWatts('2026-10-03-four-wrens', unit));
}
