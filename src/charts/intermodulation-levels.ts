import { type Axis, drawable, within } from './axis.ts';
import type { DrawnLine } from './curves.ts';
import { counted } from './format.ts';
import { markSymbol, type SpectrumMark } from './harmonic-marks.ts';
import { leftOutNotes, leftOutOf } from './messages.ts';
import { sortReadings } from './readings.ts';
import { floorName, inRange } from './spectrum-levels.ts';
import { colour, lineStyle } from './theme.ts';
import type { IntermodulationSpectrumData } from './types.ts';

/** A spectrum of two tones in decibels re the upper one, cut to the stretch that is drawn. */
export interface DrawnTones {
  line: DrawnLine;
  floor: DrawnLine | null;
  tones: SpectrumMark[];
  /** Lines at combinations of the tones. */
  products: SpectrumMark[];
  /** What the drawing leaves out. */
  notes: string[];
}

type Data = IntermodulationSpectrumData & { tones: NonNullable<IntermodulationSpectrumData['tones']> };

/** Everything that a spectrum of two tones shows on a stretch of frequency. */
export function drawnTones(data: Data, x: Axis): DrawnTones {
  const { channel, role, frequencyHz, rms, floorRms, tones, lines } = data;
  const kinds = { x: x.kind, y: 'log' } as const;
  const range: [number, number] = [...x.domain];
  const sorted = sortReadings(frequencyHz, rms, kinds);
  const reference = tones.upper.rms;
  const drawnLine = (name: string, values: ReturnType<typeof sortReadings>, style: DrawnLine['style']) => ({
    ...{ name, style },
    runs: inRange(values, range, reference),
  });
  const spectrumStyle = { ...lineStyle(role === 'stimulus' ? 1 : 0), dash: [], weight: 0.8 };
  const floorStyle = { stroke: colour('soft'), dash: [4, 2], weight: 1 };
  const products = lines.filter(
    ({ ratio, frequencyHz: hz }) => drawable('log', ratio) && drawable(x.kind, hz),
  );
  const inside = products.filter((line) => within(x, line.frequencyHz));
  return {
    line: drawnLine(channel, sorted, spectrumStyle),
    floor: floorRms && drawnLine(floorName, sortReadings(frequencyHz, floorRms, kinds), floorStyle),
    tones: [
      { name: 'f1', ...tones.lower },
      { name: 'f2', ...tones.upper },
    ]
      .filter((tone) => within(x, tone.frequencyHz))
      .map((tone) => mark({ ...tone, ratio: tone.rms / reference, detected: true })),
    products: inside.map(mark),
    notes: [
      ...leftOutNotes([leftOutOf(channel, sorted)]),
      ...outsideNote(lines.length - inside.length),
      ...(within(x, tones.lower.frequencyHz) ? [] : ['The lower tone f1 lies outside of the drawing.']),
    ],
  };
}

function mark({
  name,
  frequencyHz,
  ratio,
  detected,
}: IntermodulationSpectrumData['lines'][number]): SpectrumMark {
  const levelDb = 20 * Math.log10(ratio);
  return { label: name, frequencyHz, levelDb, detected, symbol: markSymbol(detected) };
}

const outsideNote = (count: number): string[] =>
  count === 0
    ? []
    : [
        `${counted(count, 'further line is', 'further lines are')} not in the drawing; the table has all of them.`,
      ];
