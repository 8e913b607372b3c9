import { decadeAspects, proportion } from '../aspect.ts';
import { assemble, type Row } from '../assemble.ts';
import { along, within } from '../axis.ts';
import { curveRows, type DrawnLine, logAxis, loneRows } from '../curves.ts';
import { canBeDrawn, percentDomain, percentNumbers } from '../distortion.ts';
import { hertz, listed, prefixFor, significant, withPrefix } from '../format.ts';
import { type Frame, fitted, frameFor } from '../frame.ts';
import { frequencyChannel } from '../frequency.ts';
import { lineLayer, loneLayer, type Panel, strokeLayer, textLayer, yChannel } from '../layers.ts';
import { absentReasons, leftOutNotes, leftOutOf } from '../messages.ts';
import { joined, sortReadings } from '../readings.ts';
import { linesTable } from '../table.ts';
import { textWidth } from '../text-width.ts';
import { colour, fontSize, lineStyle } from '../theme.ts';
import { logTicks, plainTick } from '../ticks.ts';
import type { ChartResult, ChartSize, ChartTable, ChartText, NoiseDensityData } from '../types.ts';

/** The part of the audio band that the title speaks of. */
const middle: readonly [number, number] = [500, 5000];

/** What is drawn, in the unit of the axis. */
interface Density {
  line: DrawnLine;
  /** "µV/√Hz". */
  unit: string;
  /** Value of one of them. */
  factor: number;
  notes: string[];
}

/**
 * Noise density against frequency, both logarithmic, in an aspect ratio of IEC 60263, with the lines of the mains that
 * stand above the noise as dotted rules. Needs two neighbouring positive readings; without them it is absent.
 */
export function noiseDensityChart(data: NoiseDensityData, size: ChartSize = 'wide'): ChartResult {
  const drawn = densityOf(data);
  const table = tableOf(data, drawn);
  if (!canBeDrawn([drawn.line])) return { absent: absentReasons.fewReadings('noise density'), table };
  const { frame, plot: panel } = fitted(
    frameFor(size, [], { rows: data.hum.length > 0 ? 1 : 0 }),
    (room) => panelOf(drawn, room, size),
    percentNumbers,
  );
  return { spec: specOf(data, drawn, panel, frame), text: textOf(data, drawn, panel), table };
}

function densityOf({ channel, role, unit, frequencyHz, density }: NoiseDensityData): Density {
  const positive = Array.from(density).flatMap((value) => (value !== null && value > 0 ? [value] : []));
  const { factor, prefix } = prefixFor(positive.toSorted((a, b) => a - b)[positive.length >> 1] ?? 1);
  const sorted = sortReadings(
    frequencyHz,
    Array.from(density, (value) => (value === null ? null : value / factor)),
    { x: 'log', y: 'log' },
  );
  const style = { ...lineStyle(role === 'stimulus' ? 1 : 0), dash: [], weight: 1 };
  return {
    line: { name: channel, runs: sorted.runs, style },
    unit: `${prefix}${unit}/√Hz`,
    factor,
    notes: leftOutNotes([leftOutOf(channel, sorted)]),
  };
}

function panelOf({ line }: Density, { width }: Frame, size: ChartSize): Panel {
  const x = logAxis([line], width);
  const [low, high] = percentDomain([line]);
  const { unitLength, span } = proportion({
    aspects: decadeAspects,
    span: Math.log10(high / low),
    decadeLength: width / Math.log10(x.domain[1] / x.domain[0]),
    height: size === 'wide' ? 270 : 230,
  });
  return { x, y: { kind: 'log', domain: [high / 10 ** span, high], length: span * unitLength }, top: 0 };
}

function specOf({ hum }: NoiseDensityData, { line, unit }: Density, panel: Panel, frame: Frame) {
  const x = frequencyChannel(panel);
  const ticks = logTicks(panel.y, plainTick, true);
  const y = yChannel('y', panel, { ...frame, ticks, title: `Noise density, ${unit}`, print: plainTick });
  const marked = hum.filter((hertz) => within(panel.x, hertz));
  return assemble(
    frame,
    panel.y.length,
    [
      strokeLayer('mains'),
      lineLayer('curve', x, y),
      loneLayer('lone', x, y),
      textLayer('mains-label', 'center'),
    ],
    {
      mains: marked.map((hertz) => ruleRow(hertz, panel)),
      curve: curveRows([line], panel),
      lone: loneRows([line]),
      'mains-label': mainsLabels(marked, panel),
    },
  );
}

function ruleRow(frequencyHz: number, { x, y }: Panel): Row {
  const px = along(x, frequencyHz);
  return { px, py: -2, px2: px, py2: y.length, stroke: colour('soft'), dash: [1, 3] };
}

/** Frequencies above the rules, from the left, each where it does not touch the one before. */
function mainsLabels(frequenciesHz: readonly number[], { x }: Panel): Row[] {
  const rows: Row[] = [];
  let free = Number.NEGATIVE_INFINITY;
  for (const frequencyHz of frequenciesHz) {
    const text = significant(frequencyHz, 3);
    const half = textWidth(text, fontSize) / 2;
    const px = along(x, frequencyHz);
    if (px - half < free) continue;
    free = px + half + 6;
    rows.push({ px, py: -10, text: [text], fill: colour('soft') });
  }
  return rows;
}

function textOf({ channel, hum }: NoiseDensityData, drawn: Density, { x }: Panel): ChartText {
  const [from, to] = x.domain.map(hertz);
  const what = `Noise density of ${channel} in ${drawn.unit} against frequency from ${from} to ${to}, both on logarithmic axes, without direct part, fundamental and harmonics.`;
  const lines = hum.length === 0 ? [] : [`Dotted rules stand at the lines of the mains above the noise.`];
  return { title: titleOf(hum, drawn), description: [what, ...lines, ...drawn.notes].join(' ') };
}

function titleOf(hum: readonly number[], { line, unit, factor }: Density): string {
  const { x, y } = joined(line.runs);
  const inside = y.filter((_, i) => (x[i] ?? 0) >= middle[0] && (x[i] ?? 0) <= middle[1]);
  const values = (inside.length > 0 ? inside : y).toSorted((a, b) => a - b);
  const base = unit.slice(prefixFor(factor).prefix.length);
  const level = withPrefix((values[values.length >> 1] ?? 0) * factor, base);
  const where = inside.length > 0 ? ` from ${hertz(middle[0])} to ${hertz(middle[1])}` : '';
  const shown = hum.slice(0, 3).map(hertz);
  const more = hum.length > shown.length ? ['above'] : [];
  return `Noise of ${level}${where}${hum.length === 0 ? ', no line of the mains above it' : `, hum at ${listed([...shown, ...more])}`}`;
}

function tableOf({ channel, frequencyHz, density, source }: NoiseDensityData, drawn: Density): ChartTable {
  return linesTable(
    {
      x: { title: 'Frequency', unit: 'Hz', print: (value) => significant(value, 4) },
      lines: [{ name: channel, x: frequencyHz, values: density }],
      value: {
        title: 'Noise density',
        unit: drawn.unit,
        print: (value) => significant(value / drawn.factor, 3),
      },
    },
    drawn.notes,
    source,
  );
}
