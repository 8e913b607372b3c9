import { type Files, log, settings, smallJournal, writeFiles } from './journal.ts';

/** A hundred cycles of 1 kHz with so many per cent of second harmonic, as time and voltage. */
export function secondCsv(percent: number): string {
  const row = (index: number) => {
    const phase = (2 * Math.PI * index) / 50;
    const noise = 0.0005 * Math.sin(index ** 2 * 0.7);
    const value = Math.sin(phase) + (percent / 100) * Math.cos(2 * phase) + noise;
    return `${(index * 2e-5).toFixed(5)},${value.toFixed(6)}`;
  };
  return `${['time (s),load (V)', ...Array.from({ length: 5000 }, (_, index) => row(index))].join('\n')}\n`;
}

/** THD of 1 % at 10 Hz, falling with the root of frequency to 0.1 % at 1 kHz, and of half of that. */
const sweep = (times: number) =>
  `${['f (Hz),load (V),THD (%)', ...[10, 100, 1000].map((hertz) => `${hertz},2.83,${(times * Math.sqrt(10 / hertz)).toFixed(5)}`)].join('\n')}\n`;

/** A log with the captures `old` (2 % of second harmonic) and `new` (0.5 %), and two sweeps; measured on 2026-01-18. */
export const measuredJournal: Files = {
  ...smallJournal,
  'journal.yaml': `${settings}instruments: [ { id: meter, name: Meter, ownDistortion: 0.001 % } ]\n`,
  'logs/first/index.md': log(`captures:
  - { file: old.csv, title: Old }
  - { file: new.csv, title: New }
  - { file: old-sweep.csv, title: Old sweep, kind: frequency-sweep, instrument: meter }
  - { file: new-sweep.csv, title: New sweep, kind: frequency-sweep, instrument: meter }
`),
  'logs/first/old.csv': secondCsv(2),
  'logs/first/new.csv': secondCsv(0.5),
  'logs/first/old-sweep.csv': sweep(1),
  'logs/first/new-sweep.csv': sweep(0.5),
};

/** A decision of the amplifier `amplifiers/tern` with these lines of frontmatter from line 6 on. */
export const decisionWith = (keys: string, body = '') => `---
title: Which tube
date: 2026-01-20
amplifier: amplifiers/tern
question: Which one?
${keys}---
${body}`;

/** The keys of a claim about the captures of the journal above. */
export const claim = (keys = 'of: logs/first/new#load\n    than: logs/first/old#load\n    relation: lower') =>
  `  - says: The second falls.\n    figure: harmonic-2\n    ${keys}\n`;

/** The folder of the journal above with these files in it. */
export const measuredFolder = (files: Files) => writeFiles({ ...measuredJournal, ...files });
