import { openJournal } from '../../src/journal/index.ts';
import { type Files, log, problemText, settings, smallJournal, writeFiles } from './journal.ts';

/** Hertz from 20 Hz to 20 kHz, ten a decade. */
const hertz = Array.from({ length: 31 }, (_, i) => 20 * 10 ** (i / 10));

/** A frequency sweep at so many volts into 8 Ω: total distortion by frequency in per cent, and a third harmonic. */
export function frequencySweep(volts: number, thd: (hertz: number) => number): string {
  const rows = hertz.map((at) =>
    [at.toFixed(3), volts.toFixed(4), thd(at).toFixed(6), (thd(at) / 3).toFixed(6)].join(','),
  );
  return `${['f (Hz),load (V),THD (%),H3 (%)', ...rows].join('\n')}\n`;
}

/** A level sweep of a gain into 8 Ω: distortion in per cent by output volts. */
export function levelSweep(gain: number, thd: (volts: number) => number): string {
  const volts = Array.from({ length: 21 }, (_, i) => 0.2 * 10 ** (i / 12));
  const rows = volts.map((out) => [(out / gain).toFixed(6), out.toFixed(5), thd(out).toFixed(6)].join(','));
  return `${['input (V),output (V),THD (%)', ...rows].join('\n')}\n`;
}

const capture = (file: string, kind: string, more = '') =>
  `  - { file: ${file}.csv, title: ${file}, kind: ${kind}, instrument: meter, load: 8 Ω${more} }\n`;

const atOneWatt = ', conditions: { level: 1 W }';
const atOneKilohertz = ', conditions: { frequency: 1 kHz }';

/** Sweeps of an old and of a new part whose total distortions cross at 200 Hz, and level sweeps 6 dB apart in gain. */
export const comparedJournal: Files = {
  ...smallJournal,
  'journal.yaml': `${settings}instruments: [ { id: meter, name: Meter, ownDistortion: 0.001 % } ]\n`,
  'logs/first/index.md': log(
    `captures:\n${[
      capture('old', 'frequency-sweep', atOneWatt),
      capture('new', 'frequency-sweep', atOneWatt),
      capture('old-level', 'level-sweep', atOneKilohertz),
      capture('new-level', 'level-sweep', atOneKilohertz),
    ].join('')}`,
  ),
  'logs/first/old.csv': frequencySweep(2.8284, () => 1),
  'logs/first/new.csv': frequencySweep(2.8284, (at) => (200 / at) ** 0.5),
  'logs/first/old-level.csv': levelSweep(20, (volts) => 0.4 * volts),
  'logs/first/new-level.csv': levelSweep(10, (volts) => 0.1 * volts),
};

const alternatives = `alternatives:
  - { id: old, title: Old part, captures: [ logs/first/old, logs/first/old-level ] }
  - { id: new, title: New part, captures: [ logs/first/new, logs/first/new-level ] }
`;

export const comparisonFile = 'comparisons/parts.md';

/** A comparison of the amplifier `amplifiers/tern`; `keys` are lines of frontmatter from line 6 on. */
export const comparisonWith = (keys = alternatives, body = '') => `---
title: Old or new
date: 2026-01-20
amplifier: amplifiers/tern
question: Which part?
${keys}---
${body}`;

/** The comparison with criteria behind its alternatives, from line 9 on. */
export const withCriteria = (criteria: string) => comparisonWith(`${alternatives}criteria:\n${criteria}`);

/** Opens the journal above with a comparison and these files in it. */
export async function openCompared(comparison = comparisonWith(), files: Files = {}) {
  const folder = writeFiles({ ...comparedJournal, [comparisonFile]: comparison, ...files });
  const { journal, problems } = await openJournal(folder);
  return { compared: journal?.comparisons[0]?.compared, problems: problems.map(problemText) };
}
