import { type HeaderUnit, parseHeaderUnit, quantityOfUnit } from './header-unit.ts';
import { longestHeader } from './limits.ts';
import { meaningOf } from './words.ts';

/** A header taken apart: "Time [ms]" is the label "Time" in the unit ms. */
export interface HeaderText {
  label: string;
  unit: HeaderUnit | null;
  /** Text in brackets that is no unit we know: a remark, or a unit to ask about. */
  unknown: string | null;
}

/** Separates label and unit: `CH1 (V)`, `Time [ms]`, `Frequency/Hz`, `Voltage in mV`, `THD %`, `freq_Hz`, `V`. */
export function parseHeader(header: string): HeaderText {
  const written = header.trim().slice(0, longestHeader);
  const bare = isWord(written) ? null : parseHeaderUnit(written);
  if (bare && meaningOf(written) === null) return { label: bareLabel(bare), unit: bare, unknown: null };
  return inBrackets(written) ?? atEnd(written) ?? { label: written, unit: null, unknown: null };
}

/** A level such as Vrms is a fair name; a plain unit is none. */
const bareLabel = (unit: HeaderUnit) => (unit.kind === 'linear' && unit.levelAs ? unit.text : '');

function inBrackets(header: string): HeaderText | null {
  const match = /^([^[({]*)(?:\[(.*)\]|\((.*)\)|\{(.*)\})([^\])}]*)$/.exec(header);
  if (!match) return null;
  const [, before = '', square, round, curly, after = ''] = match;
  const inside = square ?? round ?? curly ?? '';
  const unit = parseHeaderUnit(inside);
  const label = `${before} ${unit ? '' : inside} ${after}`.replace(/\s+/g, ' ').trim();
  return { label, unit, unknown: unit || inside === '' ? null : inside };
}

const signedEndings = [/^(.+?)\s*\/\s*([^/]+)$/, /^(.+?)\s*,\s*([^,]+)$/, /^(.+?)\s+in\s+(\S+)$/];
const looseEnding = /^(.+?)[\s_]+([^\s_]+)$/;

/** A unit behind a slash, a comma or "in"; behind a space or underscore what may be a word needs the label. */
function atEnd(header: string): HeaderText | null {
  for (const ending of [...signedEndings, looseEnding]) {
    const [, label = '', text = ''] = ending.exec(header) ?? [];
    const unit = text === '' ? null : parseHeaderUnit(text);
    if (!unit || unit.si === '' || !/\p{L}/u.test(label)) continue;
    if (ending !== looseEnding || isCertain(label, text, unit)) return { label, unit, unknown: null };
  }
  return null;
}

function isCertain(label: string, text: string, unit: HeaderUnit): boolean {
  const quantity = quantityOfUnit(unit);
  const mayBeWord = /^(?:[A-Za-z]|[a-zµμ]+)$/u.test(text) && quantity !== null;
  return !mayBeWord || meaningOf(label)?.quantity === quantity;
}

/** Units that are everyday header words, or the number of a channel, when they stand alone. */
const isWord = (text: string) => /^(?:min|h|amps?|\d+)$/i.test(text);

/** True when a header names a quantity or a unit that we know. */
export function isKnownHeader(header: string): boolean {
  return meaningOf(header) !== null || parseHeader(header).unit !== null;
}
