import type { Fault } from '../problem/index.ts';
import * as say from './messages.ts';
import type { Sense } from './senses.ts';
import type { CaptureKind, ColumnQuantity } from './types.ts';
import { electrodeOf } from './words.ts';

const distortion: readonly ColumnQuantity[] = ['thd', 'thd-plus-noise', 'harmonic'];
const signalLevel: readonly ColumnQuantity[] = ['voltage', 'current', 'power', 'level'];

/** Recognises what a capture holds by its columns; where more than one kind fits, the answer is a question. */
export function kindOfColumns(senses: readonly Sense[], hasRate: boolean): CaptureKind | Fault {
  const fitting = candidates(senses, hasRate);
  const only = fitting[0];
  return only && fitting.length === 1 ? only : say.kindUnclear(fitting, describe(senses));
}

function candidates(senses: readonly Sense[], hasRate: boolean): CaptureKind[] {
  const has = (...quantities: readonly ColumnQuantity[]) =>
    senses.some((sense) => sense.quantity !== null && quantities.includes(sense.quantity));
  const measures = has(...distortion, 'gain');
  const kinds: [CaptureKind, boolean][] = [
    [
      'waveform',
      !measures && (has('time') || (hasRate && !has('frequency') && !senses.some(isMeterReading))),
    ],
    ['impedance-sweep', has('frequency') && has('impedance')],
    [
      'frequency-sweep',
      has('frequency') && (measures || (!has('impedance') && has(...signalLevel, 'phase'))),
    ],
    ['level-sweep', !has('time', 'frequency') && isLevelSweep(senses, hasRate, measures)],
    ['plate-curves', !has('time', 'frequency', 'power') && isPlateFamily(senses)],
  ];
  return kinds.filter(([, fits]) => fits).map(([kind]) => kind);
}

/** Power or an input level, against something that was measured there. */
function isLevelSweep(senses: readonly Sense[], hasRate: boolean, measures: boolean): boolean {
  const levels = senses.filter((sense) => sense.quantity !== null && signalLevel.includes(sense.quantity));
  if (levels.length === 0 || isPlateFamily(senses)) return false;
  if (measures) return true;
  const saysLevel = levels.some(
    (sense) => isMeterReading(sense) || ['level', 'power'].includes(sense.quantity ?? ''),
  );
  return !hasRate && levels.length > 1 && saysLevel;
}

/** A level by its decibels or by a mark such as rms, and so no row of instantaneous samples. */
const isMeterReading = ({ unit }: Sense): boolean => unit?.kind === 'level' || unit?.levelAs !== undefined;

function isPlateFamily(senses: readonly Sense[]): boolean {
  const electrodes = senses.map((sense) => electrodeOf(sense.declared?.name ?? sense.label));
  return electrodes.includes('plate') && electrodes.includes('grid');
}

const describe = (senses: readonly Sense[]) =>
  senses.map((sense) => sense.header ?? `column ${sense.at + 1}`);

/** What a declared kind cannot do without: the quantities of which at least one must be there. */
const needs: Readonly<Record<CaptureKind, readonly (readonly ColumnQuantity[])[]>> = {
  waveform: [],
  'two-tone': [],
  'frequency-sweep': [['frequency'], [...signalLevel, ...distortion, 'gain', 'phase']],
  'level-sweep': [signalLevel],
  'impedance-sweep': [['frequency'], ['impedance']],
  spectrum: [['frequency'], [...signalLevel, 'gain']],
  'plate-curves': [['voltage'], ['current']],
  readings: [],
};

/** The quantities that a kind needs and no column has; null when none is missing. */
export function missingFor(kind: CaptureKind, senses: readonly Sense[]): readonly ColumnQuantity[] | null {
  const present = new Set(senses.map((sense) => sense.quantity));
  return needs[kind].find((choices) => !choices.some((quantity) => present.has(quantity))) ?? null;
}

/** Kinds whose columns are samples of a signal over time. */
export const isSampled = (kind: CaptureKind) => kind === 'waveform' || kind === 'two-tone';
