import {
  contestedHeading,
  definitionOf,
  type Figure,
  figureText,
  intervalContent,
  isContested,
} from '../figures/index.ts';
import { findingsOf, inspectionFigures } from '../journal/analysis/capture-figures.ts';
import { quantityText } from '../quantity/index.ts';
import type { Inspection } from './inspect-document.ts';
import { lineTables } from './line-tables.ts';
import { alignRows } from './rows.ts';
import { textChart } from './text-chart.ts';

/** A capture's reading and summary for a terminal. */
export function inspectReport(inspection: Inspection): string {
  const { file, capture, analysed } = inspection;
  if (!capture || !analysed) return '';
  const figures = inspectionFigures(file, capture, analysed);
  const contested = figures.filter(isContested);
  const main = figures.filter((figure) => !isContested(figure));
  return [
    `${file}: ${capture.kind}`,
    '',
    ...alignRows(readingRows(inspection), 2),
    '',
    '  Columns',
    ...alignRows(columnRows(inspection)),
    ...(main.length > 0
      ? ['', `  Summary (${intervalsOf(inspection, figures)})`, ...alignRows(figureRows(main))]
      : []),
    ...(contested.length > 0 ? ['', `  ${contestedHeading}`, ...alignRows(figureRows(contested))] : []),
    ...textChart(capture, analysed),
    ...lineTables(analysed.analysis),
    ...findingsOf(analysed.analysis).flatMap((finding) => ['', `  ${finding}`]),
  ].join('\n');
}

function intervalsOf({ capture }: Inspection, figures: readonly Figure[]): string {
  const isSampled = capture?.kind === 'waveform' || capture?.kind === 'two-tone';
  return intervalContent({ figures, measurement: null, isSampled });
}

const delimiterNames: Readonly<Record<string, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  ' ': 'spaces',
};

function readingRows({ capture, sha256 }: Inspection): string[][] {
  if (!capture) return [];
  const { table, sampling } = capture;
  const { encoding, delimiter, decimalMark, rows, firstDataLine } = table;
  const text = `${encoding}, parted by ${delimiterNames[delimiter] ?? delimiter}, decimal ${decimalMark === '.' ? 'point' : 'comma'}`;
  const read = [
    ['text', text],
    ['numbers', `${rows} rows from line ${firstDataLine}`],
  ];
  if (sampling)
    read.push([
      'sampling',
      `${quantityText(sampling.rateHz, 'Hz', 6)}, ${quantityText(sampling.durationS, 's', 4)}, from the ${sampling.from}`,
    ]);
  return [...read, ['sha256', sha256 ?? '']];
}

function columnRows({ capture }: Inspection): string[][] {
  return (capture?.columns ?? []).map(
    ({ name, header, position, quantity, order, unit, conversion, role }) => [
      name,
      header ?? `column ${position}`,
      order === undefined ? quantity : `${quantity} ${order}`,
      unit === '1' ? 'ratio' : unit,
      conversion,
      role ?? '',
    ],
  );
}

/** One row a figure, one column a channel. */
function figureRows(figures: readonly Figure[]): string[][] {
  const subjects = [...new Set(figures.map(({ subject }) => subject ?? ''))];
  const ids = [...new Set(figures.map(({ id }) => id))];
  const cell = (id: string, subject: string) => {
    const figure = figures.find((candidate) => candidate.id === id && (candidate.subject ?? '') === subject);
    return figure ? figureText(figure) : '';
  };
  const heading = subjects.some((subject) => subject !== '') ? [['', ...subjects]] : [];
  return [
    ...heading,
    ...ids.map((id) => [definitionOf(id)?.name ?? id, ...subjects.map((subject) => cell(id, subject))]),
  ];
}
