import { converted } from './instruments.ts';
import { normalSource } from './random.ts';
import { slate } from './slate.ts';
import { slateUnrest, smallRange } from './slate-captures.ts';
import { type DemoFile, plainLayout, tableBytes } from './table.ts';
import { shaped, type Tone } from './tone.ts';

const rateHz = 80e3;
const quarterWatt = Math.sqrt(8 * 0.25);
/** Standard deviations from one connection to the next: of the gain, and of curvatures per volt and per volt squared. */
const contact = { gain: 0.0012, square: 5e-6, cube: 4e-6 };

/** A tone behind clips and sockets that were put on anew and are never quite as good as the last time. */
function connected(tone: Tone, normal: () => number): Tone {
  const gain = 1 + contact.gain * normal();
  const square = contact.square * normal();
  const cube = contact.cube * normal();
  return shaped(tone, (volts) => gain * volts + square * volts ** 2 + cube * volts ** 3);
}

function connection(path: string, seed: number): DemoFile {
  const normal = normalSource(seed);
  const tone = connected(slate(0.15, 1000.2 + 0.02 * normal(), quarterWatt), normal);
  const recording = { tone, unrest: slateUnrest, count: 4096, rateHz, startS: 0.0003, seed: seed + 100 };
  const values = Array.from(converted(recording, smallRange), (code) => code * smallRange.stepV);
  const preamble = ['# invented capture, see the journal', `# sample rate: ${rateHz / 1000} kHz`];
  const bytes = tableBytes({ ...plainLayout, preamble, headers: [['output [V]']] }, [{ values, digits: 6 }]);
  return { path, bytes };
}

/** Slate connected five times over, with the folder of the log that the captures belong to. */
export function slateRepeatCaptures(): DemoFile[] {
  const folder = '2026-07-18-more-idle-current';
  return [1, 2, 3, 4, 5].map((time) => connection(`${folder}/slate-150ma-again-${time}.csv`, 320 + time));
}
