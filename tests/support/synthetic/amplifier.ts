import type { Chance } from './chance.ts';
import { amplifierId, dateOf, logsPerAmplifier, numberOf, placeOf } from './plan.ts';

/** Text of each record about one amplifier by its file: the amplifier, two versions, a part, a decision, a comparison. */
export function amplifierFiles(group: number, chance: Chance): Record<string, string> {
  const id = amplifierId(group);
  const number = numberOf(group);
  const firstLog = group * logsPerAmplifier;
  return {
    [`${id}/index.md`]: amplifierText(number),
    [`${id}/v1.md`]: versionText({ id, number, version: 1, date: dateOf(firstLog) }, chance),
    [`${id}/v2.md`]: versionText({ id, number, version: 2, date: dateOf(firstLog + 10) }, chance),
    [`parts/synthetic-output-${number}.md`]: partText(number, chance),
    [`decisions/${number}-cathode.md`]: decisionText(id, number, firstLog),
    [`comparisons/synthetic-${number}.md`]: comparisonText(id, number, firstLog),
  };
}

const amplifierText = (number: string) => `---
title: Synthetic ${number}
purpose: To be one of many; nothing of it exists.
kind: tube
topology: single-ended pentode with a resistance-coupled driver
openQuestions:
  - What would synthetic amplifier ${number} have sounded like?
---

Everything about this amplifier is invented.
`;

interface Built {
  id: string;
  number: string;
  version: 1 | 2;
  date: string;
}

function versionText({ id, number, version, date }: Built, chance: Chance): string {
  const plateV = Math.round(chance.between(240, 260));
  const cathodeOhm = Math.round(chance.between(160, 220));
  const change = `follows: ${id}/v1\nchanges:\n  - The cathode resistor is another one, because the first was too warm.\n`;
  return `---
title: Synthetic ${number}, version ${version}
date: ${date}
state: ${version === 1 ? 'retired' : 'current'}
${version === 1 ? '' : change}summary: A 6L6GC at ${plateV} V, invented.
ratedLoad: 8 Ω
supply:
  plate: 275 V
  current: 100 mA
  sourceResistance: 150 Ω
  mains: 50 Hz
  offLoad: 345 V
  reservoir:
    - { capacitance: 100 µF, ratedVoltage: 400 V, workingVoltage: 285 V, bleeder: 33 kΩ, bleederPower: 5 W }
stages:
  - id: output
    title: Output stage
    topology: single-ended
    device: 6L6GC
    connection: pentode
    plate: ${plateV} V
    screen: 250 V
    bias: { cathodeResistor: ${cathodeOhm} Ω, bypassed: true }
    load: 2500 Ω
  - id: driver
    title: Driver
    topology: resistance-coupled
    device: 12AU7
    connection: triode
    supply: 250 V
    plateResistor: 47 kΩ
    bias: { cathodeResistor: ${Math.round(chance.between(1200, 1800))} Ω, bypassed: true }
    nextGridLeak: 220 kΩ
parts:
  - { part: Output transformer, value: 2.5 kΩ to 8 Ω, quantity: 1, price: 39.00 EUR, supplier: invented, record: parts/synthetic-output-${number} }
  - { part: Cathode resistor, value: ${cathodeOhm} Ω 5 W, quantity: 1, price: 1.20 EUR, supplier: invented }
---

Its output stage delivers :figure[power]{of="${id}/v${version}#output"} by the model. Nobody has built it.
`;
}

const partText = (number: string, chance: Chance) => `---
title: Synthetic output transformer ${number}
kind: transformer
primary: 2.5 kΩ
secondary: 8 Ω
primaryResistance: ${Math.round(chance.between(90, 160))} Ω
price: 39.00 EUR
supplier: invented
state: in hand
---

It does not exist.
`;

/** Captures of a log of the first version and of one of the second; both logs are there only in a whole group. */
const pairOf = (firstLog: number) => ({ before: placeOf(firstLog).id, after: placeOf(firstLog + 10).id });

function decisionText(id: string, number: string, firstLog: number): string {
  const { before, after } = pairOf(firstLog);
  return `---
title: Which cathode resistor for synthetic ${number}
date: ${dateOf(firstLog + 12)}
amplifier: ${id}
version: ${id}/v2
question: Does the other cathode resistor leave distortion where it was?
state: decided
options:
  - { id: first, title: The first resistor }
  - { id: second, title: The other resistor, part: parts/synthetic-output-${number} }
chosen: second
evidence:
  - id: below-five-percent
    says: THD at one watt is below 5 %.
    figure: thd
    of: ${after}/tone-1w#output
    against: 5 %
    relation: lower
  - id: lower-below
    says: At a tenth of that power it is lower than the first version had at one watt.
    figure: thd
    of: ${after}/tone-100mw#output
    than: ${before}/tone-1w#output
    relation: lower
  - id: by-the-sheet
    says: By the load sheet there is more than one watt.
    figure: power
    of: ${id}/v2#output
    against: 1 W
    relation: higher
decision: The other resistor stays in the invented amplifier.
---

Seen in [the log](../${after}/index.md).
`;
}

function comparisonText(id: string, number: string, firstLog: number): string {
  const { before, after } = pairOf(firstLog);
  const captures = (log: string) =>
    ['distortion', 'level', 'tone-1w#output'].map((name) => `      - ${log}/${name}`).join('\n');
  return `---
title: Synthetic ${number} with either resistor
date: ${dateOf(firstLog + 14)}
amplifier: ${id}
decision: decisions/${number}-cathode
question: Is one of the two lower in distortion everywhere?
alternatives:
  - id: first
    title: First resistor
    version: ${id}/v1
    captures:
${captures(before)}
  - id: second
    title: Other resistor
    version: ${id}/v2
    captures:
${captures(after)}
criteria:
  - { title: THD at 1 kHz, weight: 2, figure: thd-at-1khz }
  - { title: Power at 3 % THD, weight: 1, figure: power-at-3-percent }
---

Both are invented.
`;
}
