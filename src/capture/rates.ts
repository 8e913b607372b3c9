import { parseUnit } from '../quantity/index.ts';
import { parseHeader } from './header-text.ts';
import type { Note } from './notes.ts';
import { type DecimalMark, lastDigit, readNumber } from './numbers.ts';
import { plainWords } from './words.ts';

/** A sampling rate that the file states in words. */
export interface StatedRate {
  rateHz: number;
  /** Half a unit of its last printed digit, as a share of the rate. */
  relativeRounding: number;
  line: number;
}

const rateKey =
  /^(?:(?:sampl\w*|acquisition|recording|data|digiti[sz]\w*) ?(?:rate|freq\w*)|fs|rate|samples per second)$/;
const stepKey =
  /^(?:(?:(?:sampl\w*|time|x|horizontal|recording|acquisition) ?)?(?:interval|increment|step)|sampl\w* ?(?:period|time|spacing|distance)|dt|delta t|(?:time|seconds?) per (?:sample|point))$/;

/** Sampling rates and sample intervals among the notes, each as a rate in hertz. */
export function statedRates(notes: readonly Note[], mark: DecimalMark): StatedRate[] {
  return notes.flatMap((note) => rateOf(note, mark) ?? []);
}

function rateOf(note: Note, mark: DecimalMark): StatedRate | null {
  const { label, unit } = parseHeader(note.key);
  const words = plainWords(label);
  const isStep = stepKey.test(words);
  if (!isStep && !rateKey.test(words)) return null;
  const stated = statedNumber(note.value, unit?.text ?? '', mark);
  if (!stated || stated.value <= 0 || (isStep && stated.si === 'Hz')) return null;
  const isInterval = isStep || stated.si === 's';
  return {
    rateHz: isInterval ? Number((1 / stated.value).toPrecision(12)) : stated.value,
    relativeRounding: stated.rounding / stated.value,
    line: note.line,
  };
}

interface StatedNumber {
  value: number;
  rounding: number;
  si: 'Hz' | 's' | null;
}

/** "500 kSa/s", "2.0E-06", "44,1 kHz" with the unit in the value, or else in the key. */
function statedNumber(text: string, keyUnit: string, mark: DecimalMark): StatedNumber | null {
  const [, digits = '', written = ''] = /^([+-]?[\d.,]+(?:[eE][+-]?\d+)?)\s*(.*)$/.exec(text) ?? [];
  const marks = [mark, mark === ',' ? '.' : ','] as const;
  const used = marks.find((tried) => Number.isFinite(readNumber(digits, tried)));
  const unit = timeUnit(written.trim() || keyUnit);
  if (!used || !unit) return null;
  const value = readNumber(digits, used) * unit.factor;
  return { value, rounding: (lastDigit(digits, used) * unit.factor) / 2, si: unit.si };
}

function timeUnit(text: string): { si: 'Hz' | 's' | null; factor: number } | null {
  if (text === '') return { si: null, factor: 1 };
  const spelt = text.replace(/^([kKMG]?)\s*(?:samples?\/s(?:ec)?|s\/sec|sps)$/i, '$1Hz');
  const unit = parseUnit(spelt) ?? parseUnit(`${spelt}Hz`);
  if (unit?.si === 'Hz' || unit?.si === 's') return { si: unit.si, factor: unit.factor };
  return null;
}
