import { assemble, type Row } from './assemble.ts';
import { along, below } from './axis.ts';
import { curveRows, type DrawnLine, endLabels } from './curves.ts';
import type { Frame } from './frame.ts';
import type { MarkKey, SpectrumMark } from './harmonic-marks.ts';
import {
  bandLayer,
  haloLayer,
  lineLayer,
  type Panel,
  strokeLayer,
  symbolLayer,
  textLayer,
  type xChannel,
  yChannel,
} from './layers.ts';
import { markLabels } from './mark-labels.ts';
import { colour } from './theme.ts';
import { linearTicks, plainTick } from './ticks.ts';

/** What a spectrum in decibels draws besides its frame. */
export interface LineSpectrum {
  line: DrawnLine;
  /** Level of the noise; drawn as a band up to it. */
  floor: DrawnLine | null;
  /** Lines that are marked and named. */
  marks: readonly SpectrumMark[];
  key: MarkKey;
  x: ReturnType<typeof xChannel>;
  /** Of the axis of levels. */
  title: string;
}

/** A spectrum with its noise as a band, its lines marked and named, and a key to the marks at the right. */
export function lineSpectrum(
  { line, floor, marks, key, x, title }: LineSpectrum,
  panel: Panel,
  frame: Frame,
) {
  const ticks = linearTicks(panel.y, panel.y.length / 38);
  const y = (field: string) => yChannel(field, panel, { ...frame, ticks, title, print: plainTick });
  const floors = floor === null ? [] : [floor];
  const { labels, leads } = endLabels(floors, panel, frame);
  const floorRows = curveRows(floors, panel, 10);
  const atRight = (row: Row & { px: number }) => ({ ...row, px: frame.width - key.width + row.px });
  return assemble(
    frame,
    panel.y.length,
    [
      bandLayer('band', x, y('high'), 'low'),
      lineLayer('curve', x, y('y')),
      lineLayer('floor', x, y('y')),
      strokeLayer('lead'),
      haloLayer('name', 'center'),
      symbolLayer('mark'),
      textLayer('name', 'center'),
      symbolLayer('key'),
      textLayer('key-label', 'left'),
      textLayer('label', 'left'),
    ],
    {
      band: floorRows.map(({ x: place, y: high, run }) => ({
        ...{ x: place, high, low: panel.y.domain[0], run },
        fill: colour('soft'),
      })),
      curve: curveRows([line], panel),
      floor: floorRows,
      lead: leads,
      mark: marks.map((mark) => markRow(mark, panel)),
      name: markLabels(marks, panel),
      key: key.symbols.map(atRight),
      'key-label': key.labels.map(atRight),
      label: labels,
    },
  );
}

function markRow({ frequencyHz, levelDb, symbol }: SpectrumMark, panel: Panel): Row {
  return { px: along(panel.x, frequencyHz), py: below(panel.y, levelDb), ...symbol };
}
