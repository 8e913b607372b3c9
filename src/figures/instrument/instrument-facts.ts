import { printNumber, quantityText } from '../../quantity/index.ts';
import { briefFigures } from '../brief.ts';
import { printFigure } from '../print.ts';
import { definitionOf } from '../registry.ts';
import type { Figure } from '../types.ts';
import { isContested } from '../waveform/contested.ts';
import type { PrintedTable } from '../waveform/line-tables.ts';
import { type Instrument, instrumentTerms, ownDistortionAt } from './instrument.ts';
import type { Measurement } from './instrument-figures.ts';

/** What is said about the instrument of a capture, one sentence each. */
export function instrumentNotes({ instrument, channels }: Measurement): string[] {
  const terms = instrumentTerms(instrument);
  const stated = terms.length > 0 ? `Stated: ${terms.join(', ')}.` : 'Nothing is stated about its errors.';
  const places = [...channels.values()].flatMap(({ frequencyHz, twoTone }) => {
    const tones = twoTone?.tones;
    return tones ? [tones.lower.frequencyHz, tones.upper.frequencyHz] : (frequencyHz ?? []);
  });
  const distinct = [...new Set(places.map((hertz) => Number(hertz.toPrecision(3))))];
  return [
    stated,
    ...distinct.flatMap((hertz) => ownAt(instrument, hertz)),
    ...stepNote(instrument, channels),
  ];
}

/** Own distortion at a frequency of the capture, where it is stated against frequency. */
function ownAt(instrument: Instrument, hertz: number): string[] {
  const { ownDistortion: stated = [] } = instrument;
  const [first, last] = [stated[0], stated.at(-1)];
  const own = ownDistortionAt(instrument, hertz);
  if (!first || !last || first === last || own === null) return [];
  const held = hertz < first.frequencyHz ? first : hertz > last.frequencyHz ? last : null;
  const from = held ? `, held from ${quantityText(held.frequencyHz, 'Hz')}` : '';
  return [`Own distortion at ${quantityText(hertz, 'Hz')}: ${printNumber(100 * own, 2)}\u00a0%${from}.`];
}

function stepNote({ bits }: Instrument, channels: Measurement['channels']): string[] {
  const steps = [...channels].flatMap(([name, { step }]) =>
    step === null ? [] : [`${quantityText(step, 'V')} in ${name}`],
  );
  if (bits === undefined || steps.length === 0) return [];
  return [
    `One step of its converter is ${steps.join(', ')}; within a waveform the steps are part of the noise and counted there.`,
  ];
}

const isLine = ({ id }: Figure) => /^(harmonic-\d|intermodulation-)/.test(id);

/** What a reader asks for first, single lines and contested figures aside, with the instrument's share; null where it has none in any. */
export function instrumentTable(figures: readonly Figure[]): PrintedTable | null {
  const rows = briefFigures(figures).filter(
    (figure) => figure.systematic !== undefined && !isContested(figure) && !isLine(figure),
  );
  if (rows.length === 0) return null;
  const columns = [
    { title: 'Figure', numeric: false },
    { title: 'Channel', numeric: false },
    { title: 'Value and 95 % interval', numeric: true },
    { title: 'Instrument’s share of the variance', numeric: true },
  ];
  return { columns, rows: rows.map(shareRow) };
}

function shareRow(figure: Figure): string[] {
  const { number = '', unit = '', interval } = printFigure(figure) ?? {};
  return [
    definitionOf(figure.id)?.name ?? figure.id,
    figure.subject ?? '',
    [number, interval?.startsWith('±') ? interval : `(${interval})`, unit].join('\u00a0').trimEnd(),
    shareText(figure),
  ];
}

/** Standard uncertainties add as squares, and so the shares are those of squares. */
function shareText({ low, systematic = 0, random }: Figure): string {
  if (random === undefined) return low === 0 ? 'interval from 0' : 'no other part known';
  const total = systematic ** 2 + random ** 2;
  const share = total > 0 ? systematic ** 2 / total : 0;
  if (share > 0.995) return 'over 99\u00a0%';
  return share < 0.005 ? 'under 1\u00a0%' : `${Math.round(100 * share)}\u00a0%`;
}
