import { type Axis, drawable, within } from '../axis.ts';
import { type Frame, frameFor } from '../frame.ts';
import { markKey } from '../harmonic-marks.ts';
import { type DrawnTones, drawnTones } from '../intermodulation-levels.ts';
import { intermodulationTable, intermodulationText } from '../intermodulation-text.ts';
import { intermodulationView } from '../intermodulation-view.ts';
import { type Panel, xChannel } from '../layers.ts';
import { lineSpectrum } from '../line-spectrum.ts';
import { absentReasons } from '../messages.ts';
import { floorName, middleLevel } from '../spectrum-levels.ts';
import { linearTicks, logTicks, prefixedTick } from '../ticks.ts';
import type { ChartResult, ChartSize, IntermodulationSpectrumData } from '../types.ts';

/**
 * Amplitude spectrum of two tones in decibels re the upper one, both tones and their combinations named; lines above
 * the noise are discs, the others diamonds. The axis of frequency is linear around the upper tone or up to both, by
 * what the tones are for, and logarithmic where they are for neither. Without tones or without two lines it is absent.
 */
export function intermodulationSpectrum(
  data: IntermodulationSpectrumData,
  size: ChartSize = 'wide',
): ChartResult {
  const { tones } = data;
  if (tones === null || !isDrawable(tones.lower) || !isDrawable(tones.upper)) {
    return { absent: absentReasons.noTones(data.channel), table: intermodulationTable(data, []) };
  }
  const rows = data.lines.every(({ detected }) => detected) ? 0 : 1;
  const frame = frameFor(size, data.floorRms === null ? [] : [floorName], { most: 48, rows });
  const x = intermodulationView({ ...data, tones }, frame.width);
  const drawn = drawnTones({ ...data, tones }, x);
  const table = intermodulationTable(data, drawn.notes);
  if (!drawn.line.runs.some((run) => run.x.length > 1)) {
    return { absent: absentReasons.fewLines(data.channel), table };
  }
  const y: Axis = { kind: 'linear', domain: levelDomain(drawn, size), length: size === 'wide' ? 290 : 250 };
  const text = intermodulationText(data, drawn.products, { x, y, notes: drawn.notes });
  return { spec: specOf(drawn, { x, y, top: 0 }, frame), text, table };
}

const isDrawable = ({ frequencyHz, rms }: { frequencyHz: number; rms: number }) =>
  drawable('log', frequencyHz) && drawable('log', rms);

/** From ten decibels below the noise and the lowest mark to room for the names above the tones, in whole tens. */
function levelDomain({ line, floor, tones, products }: DrawnTones, size: ChartSize): [number, number] {
  const noise = middleLevel(floor ?? line) ?? -100;
  const levels = [...tones, ...products].map(({ levelDb }) => levelDb);
  const lowest = Math.max(-200, Math.min(noise - 10, ...levels.map((level) => level - 5), -20));
  const highest = Math.max(0, ...levels);
  const room = size === 'wide' ? 10 : 20;
  return [10 * Math.floor(lowest / 10), 10 * Math.ceil(Math.round(highest) / 10) + room];
}

function specOf({ line, floor, tones, products }: DrawnTones, panel: Panel, frame: Frame) {
  const marks = [...tones, ...products].filter(({ levelDb }) => within(panel.y, levelDb));
  const key = frame.rows === 0 ? { width: 0, symbols: [], labels: [] } : markKey(marks);
  const shown = { line, floor, marks, key, x: frequencyChannel(panel), title: 'Level, dB re upper tone' };
  return lineSpectrum(shown, panel, frame);
}

function frequencyChannel(panel: Panel) {
  const { x } = panel;
  const ticks = x.kind === 'log' ? logTicks(x, prefixedTick) : linearTicks(x, x.length / 70);
  return xChannel('x', panel, { ticks, title: 'Frequency, Hz', print: prefixedTick });
}
