import type { Chance } from './chance.ts';
import { numberOf, type Place, placeOf } from './plan.ts';

const subjects = [
  'The cathode',
  'The driver',
  'The core',
  'The supply',
  'The second stage',
  'The load',
] as const;
const actions = ['was warm', 'was left alone', 'was read twice', 'was taken from another shelf'] as const;
const ends = [
  'before the tone was raised',
  'after an hour',
  'with the cover off',
  'while it rained',
] as const;
const topics = [
  ...(['hum', 'driver', 'cancellation', 'low frequencies', 'clipping', 'idle current'] as const),
  ...(['supply', 'bench', 'transformer', 'level', 'noise', 'repeat'] as const),
] as const;

/** The Markdown of one log: four captures, prose with maths, a table, a picture, charts, and links to earlier logs. */
export function logText(place: Place, chance: Chance): string {
  const { date, amplifier, version } = place;
  const number = numberOf(place.ordinal);
  return `---
title: Synthetic run ${number}
date: ${date}
amplifier: ${amplifier}
version: ${version}
question: What does run ${number} of the synthetic bench look like?
answer: As invented as all the others.
tags: [ ${chance.one(topics)}, 6L6GC, synthetic ]
captures:
${captureKeys(number)}
${place.ordinal % 3 === 0 ? expectationKeys : ''}keyFigures:
  - { figure: thd, of: tone-1w#output }
  - { figure: power-at-3-percent, of: level }
---

${sentences(chance)} Every number of this log is invented.

${links(place, chance)}

## The tone

::chart{capture="tone-1w" kind="spectrum"}

THD is :figure[thd]{of="tone-1w#output"} at one watt. A second harmonic of $a_2$ beside a third of $a_3$ makes
$k = \\sqrt{a_2^2 + a_3^2}$, and into $R = 8\\,\\Omega$ the power is $P = U^2 / R$.

$$
d_n = \\frac{\\hat u_n}{\\hat u_1}, \\qquad \\hat u_n = \\left| \\frac{2}{N} \\sum_{i=0}^{N-1} u_i \\, e^{-2\\pi \\mathrm{j} n i f / f_s} \\right|
$$

${sentences(chance)}

${table(chance)}

## The sweeps

::chart{capture="level" kind="harmonics"}

${sentences(chance)}

![Two invented colours that run into each other](bench.jpg "The synthetic bench, as run ${number} left it")

- ${sentences(chance)}
- With $\\omega = 2\\pi f$ the end of the band is at $f_1 = R / (2\\pi L)$.
- ${sentences(chance)}

## What next

${sentences(chance)} ${sentences(chance)}
`;
}

function captureKeys(number: string): string {
  const waveform = (name: string, level: string) => `  - file: ${name}.csv
    title: Run ${number}, 1 kHz at ${level}
    kind: waveform
    load: 8 Ω
    conditions: { level: ${level}, frequency: 1 kHz }
    columns:
      input: { column: input, unit: V, role: stimulus }
      output: { column: output, unit: V, role: response }`;
  const sweep = (name: string, title: string, keys: string) => `  - file: ${name}.csv
    title: Run ${number}, distortion against ${title}
    load: 8 Ω
${keys}`;
  return [
    waveform('tone-1w', '1 W'),
    waveform('tone-100mw', '100 mW'),
    sweep('distortion', 'frequency', '    kind: frequency-sweep\n    conditions: { level: 1 W }'),
    sweep('level', 'level', '    kind: level-sweep\n    conditions: { frequency: 1 kHz }'),
  ].join('\n');
}

const expectationKeys = `expectations:
  - id: lower-at-low-level
    rule: falls-with-level
    date: 2018-01-01
    says: At a tenth of the power THD is lower.
    figure: thd
    of: tone-100mw#output
    than: tone-1w#output
    relation: lower
`;

function links({ ordinal }: Place, chance: Chance): string {
  if (ordinal === 0) return 'This is the first log.';
  const earlier = [ordinal - 1, Math.floor(chance.between(0, ordinal))].map((one) => placeOf(one).id);
  const [last, other] = earlier.map((id) => `../${id.replace('logs/', '')}/index.md`);
  return `It follows [the run before](${last}) and looks back at [another one](${other}#the-tone).`;
}

function table(chance: Chance): string {
  const rows = [20, 100, 1000, 10_000, 20_000].map((hertz) => {
    const [first, second] = [0, 1].map(() => chance.between(0.1, 4).toFixed(2));
    return `| ${hertz} Hz | ${first} % | ${second} % |`;
  });
  return ['| frequency | second | third |', '|---|---|---|', ...rows].join('\n');
}

/** A few sentences that say nothing. */
function sentences(chance: Chance): string {
  const one = () => `${chance.one(subjects)} ${chance.one(actions)} ${chance.one(ends)}.`;
  return [one(), one(), one()].join(' ');
}
