import { describe, expect, test } from 'vitest';
import { log, problemsOf, settings, version, versionWith } from '../support/journal.ts';

type Case = [title: string, source: string, ...told: string[]];

/** The file's problems as they should read: each is a place, a rule, a message and perhaps a hint. */
const told = (file: string, problems: readonly string[]) =>
  `\n${problems.map((problem) => `${file}:${problem}`).join('\n')}\n`;

const logCases: Case[] = [
  [
    'an unknown key with a near one',
    log('quesion: Why?\n'),
    '6:1 error unknown-key\n  The key "quesion" is not known here.\n  Did you mean question?',
  ],
  [
    'an unknown key with none near',
    log('weather: fine\n'),
    '6:1 error unknown-key\n  The key "weather" is not known here.\n  Keys that can stand here: title, date, amplifier, version, question, answer, tags, captures, repeats, repeatability, expectations, keyFigures.',
  ],
  [
    'unknown keys inside a capture and a column',
    log(
      'captures:\n  - file: tone.csv\n    title: Tone\n    titles: Tone\n    columns:\n      speaker: { column: 2, unitt: V }\n',
    ),
    '9:5 error unknown-key\n  The key "titles" is not known here.\n  Did you mean title?',
    '11:29 error unknown-key\n  The key "unitt" is not known here.\n  Did you mean unit?',
  ],
  [
    'missing keys at the top and inside, each at what lacks it',
    '---\ndate: 2026-01-18\namplifier: amplifiers/tern\nquestion: Does it hum?\ncaptures:\n  - file: tone.csv\n    columns:\n      speaker: { unit: V }\nkeyFigures:\n  - { figure: thd }\n---\n',
    '2:1 error missing-key\n  The key "title" is missing.\n  Add a line "title:" with its value.',
    '6:5 error missing-key\n  The key "title" is missing.\n  Add a line "title:" with its value.',
    '8:7 error missing-key\n  The key "column" is missing.\n  Add a line "column:" with its value.',
    '10:5 error missing-key\n  The key "of" is missing.\n  Add a line "of:" with its value.',
  ],
  [
    'values of a wrong type',
    log(
      'tags: hum\ncaptures: 5\nkeyFigures: { figure: thd }\nversion: [ amplifiers/tern/v1 ]\nanswer: true\n',
    ),
    '6:7 error wrong-type\n  A list is expected here, but this is "hum".',
    '7:11 error wrong-type\n  A list is expected here, but this is 5.',
    '8:13 error wrong-type\n  A list is expected here, but this is a group of keys.',
    '9:10 error wrong-type\n  A text is expected here, but this is a list.',
    '10:9 error wrong-type\n  A text is expected here, but this is true.\n  Put quotes around it if it is a text.',
  ],
  [
    'captures that are no groups of keys',
    log('captures:\n  - tone.csv\n  - [ tone.csv ]\n  -\n'),
    '7:5 error wrong-type\n  A group of keys is expected here, but this is "tone.csv".',
    '8:5 error wrong-type\n  A group of keys is expected here, but this is a list.',
    '9:4 error wrong-type\n  There is no value here.\n  Write a value, or remove the key.',
  ],
  [
    'empty texts',
    log('answer: ""\n').replace('First sound', '" "'),
    '2:8 error value\n  This text is empty; write something here.',
    '6:9 error value\n  This text is empty; write something here.',
  ],
  [
    'a key without a value',
    log('answer:\n'),
    '6:8 error wrong-type\n  There is no value here.\n  Write a value, or remove the key.',
  ],
  [
    'a day that does not exist',
    log().replace('2026-01-18', '2026-02-30'),
    '3:7 error date\n  "2026-02-30" is not a date.\n  Write year, month and day, for example 2026-02-07.',
  ],
  [
    'a date in another order',
    log().replace('2026-01-18', '18.1.2026'),
    '3:7 error date\n  "18.1.2026" is not a date.\n  Write year, month and day, for example 2026-02-07.',
  ],
  [
    'a date without hyphens',
    log().replace('2026-01-18', '20260118'),
    '3:7 error date\n  "20260118" is not a date.\n  Write year, month and day, for example 2026-02-07.',
  ],
  [
    'four key figures',
    log(`keyFigures:\n${'  - { figure: thd, of: tone }\n'.repeat(4)}`),
    '7:3 error value\n  There are too many entries; at most 3 are expected.',
  ],
  [
    'a capture with everything wrong',
    log(`captures:
  - file: tone.csv
    title: Tone
    id: Tone 1
    kind: wavform
    load: 8
    harmonics: ten
    band: 20 Hz
    rate: 48 kV
    skip: -1
    delimiter: "|"
    levelAs: RMS
    fullScale: 2 Hz
    exchanged: maybe
    conditions: hot
    columns:
      grid 1: { column: 2 }
      speaker: { column: 0, quantity: volts, scale: -1, order: 1.5, reference: 1 }
`),
    '9:9 error short-name\n  "Tone 1" cannot stand in an address.\n  Use small letters, digits and hyphens, for example tone-1w.',
    '10:11 error not-an-option\n  "wavform" is not one of "waveform", "two-tone", "frequency-sweep", "level-sweep", "impedance-sweep", "spectrum", "plate-curves", "readings".\n  Did you mean waveform?',
    '11:11 error quantity\n  "8" has no unit; a resistance is expected here.\n  Write it with its unit, for example 4.7 kΩ.',
    '12:16 error number\n  A whole number from 2 to 100 is expected here, but this is "ten".',
    '13:11 error wrong-type\n  A list of two is expected here, but this is "20 Hz".',
    '14:11 error quantity\n  "48 kV" is a voltage, but a frequency is expected here.\n  Write a value such as 1 kHz.',
    '15:11 error number\n  A whole number of at least 0 is expected here, but this is "-1".',
    '16:16 error not-an-option\n  "|" is not one of ",", ";", "\\t", " ".\n  Write one of them.',
    '17:14 error not-an-option\n  "RMS" is not one of "rms", "peak", "peak-to-peak".\n  Did you mean rms?',
    '18:16 error quantity\n  "2 Hz" is a frequency, but a voltage is expected here.\n  Write a value such as 300 V.',
    '19:16 error wrong-type\n  Either true or false is expected here, but this is "maybe".',
    '20:17 error wrong-type\n  A group of keys is expected here, but this is "hot".',
    '22:7 error channel-name\n  "grid 1" cannot be the name of a channel.\n  Use letters, digits and _ . + -, beginning with a letter or digit.',
    '23:26 error number\n  A header, or the number of a column counted from 1, is expected here, but this is 0.',
    '23:39 error not-an-option\n  "volts" is not one of "index", "time", "frequency", "voltage", "current", "power", "impedance", "gain", "phase", "thd", "thd-plus-noise", "harmonic", "level", "temperature", "number".\n  Write one of them.',
    '23:53 error number\n  A number above 0 is expected here, but this is "-1".',
    '23:64 error number\n  A whole number from 1 to 100 is expected here, but this is "1.5".',
    '23:80 error quantity\n  "1" has no unit; a voltage is expected here.\n  Write it with its unit, for example 300 V.',
  ],
];

describe.each(['md', 'mdx'])('a log in .%s', (extension) => {
  const file = `logs/second/index.${extension}`;
  test.each(logCases)('%s', async (_title, source, ...expected) => {
    const files = { 'journal.yaml': `${settings}mdx: true\n`, [file]: source };
    expect(await problemsOf(files)).toBe(told(file, expected));
  });
});

const versionCases: Case[] = [
  [
    'unknown keys at every depth',
    versionWith(
      'stats: new\nsupply: { plat: 300 V, reservoir: [ { capacitance: 47 µF, rated: 450 V, bleeder: 220 kΩ } ] }\nparts:\n  - { part: Choke, henries: 10 }\n',
    ),
    '6:1 error unknown-key\n  The key "stats" is not known here.\n  Did you mean state?',
    '7:11 error unknown-key\n  The key "plat" is not known here.\n  Did you mean plate?',
    '7:59 error unknown-key\n  The key "rated" is not known here.\n  Keys that can stand here: capacitance, ratedVoltage, workingVoltage, bleeder, bleederPower, feeds.',
    '9:20 error unknown-key\n  The key "henries" is not known here.\n  Keys that can stand here: part, value, quantity, price, supplier, record.',
  ],
  [
    'a stage without a topology, which decides its other keys',
    versionWith('stages:\n  - { id: output }\n'),
    '7:5 error missing-key\n  The key "topology" is missing.\n  Add a line "topology:" with its value.',
  ],
  [
    'missing keys of a stage',
    versionWith('stages:\n  - { id: output, topology: single-ended }\n'),
    ...['device', 'connection', 'bias'].map(
      (key) =>
        `7:5 error missing-key\n  The key "${key}" is missing.\n  Add a line "${key}:" with its value.`,
    ),
  ],
  [
    'quantities of a wrong dimension or without a unit',
    versionWith(`ratedLoad: 8 V
supply:
  plate: 5 mA
  current: 70
  mains: fifty
  offLoad: 410,5 V
  reservoir:
    - { capacitance: 47 uF, ratedVoltage: 450, bleeder: 220k }
  filter:
    - { kind: CR, capacitance: 47 V, inductance: 10 Hx }
`),
    '6:12 error quantity\n  "8 V" is a voltage, but a resistance is expected here.\n  Write a value such as 4.7 kΩ.',
    '8:10 error quantity\n  "5 mA" is a current, but a voltage is expected here.\n  Write a value such as 300 V.',
    '9:12 error quantity\n  "70" has no unit; a current is expected here.\n  Write it with its unit, for example 48 mA.',
    '10:10 error quantity\n  "fifty" is not a frequency.\n  Write a number and a unit, for example 1 kHz.',
    '11:12 error quantity\n  "410,5 V" has a comma where a decimal point is expected.\n  Write 410.5 V.',
    '13:43 error quantity\n  "450" has no unit; a voltage is expected here.\n  Write it with its unit, for example 300 V.',
    '15:15 error not-an-option\n  "CR" is not one of "RC", "LC".\n  Did you mean RC?',
    '15:32 error quantity\n  "47 V" is a voltage, but a capacitance is expected here.\n  Write a value such as 0.22 µF.',
    '15:50 error quantity\n  "10 Hx" has the unit "Hx", which is not known.\n  Did you mean H or Hz or h?',
  ],
  [
    'a bias given in two ways, in none, or as a bare value',
    versionWith(`stages:
  - { id: one, topology: single-ended, device: 2A3, connection: triode, bias: { grid: -40 V, current: 60 mA } }
  - { id: two, topology: single-ended, device: 2A3, connection: triode, bias: { bypassed: true } }
  - { id: three, topology: single-ended, device: 2A3, connection: triode, bias: -40 V }
`),
    '7:79 error bias\n  A bias is given by exactly one of grid, cathodeResistor and current.\n  Write for example bias: { cathodeResistor: 750 Ω, bypassed: true }.',
    '8:79 error bias\n  A bias is given by exactly one of grid, cathodeResistor and current.\n  Write for example bias: { cathodeResistor: 750 Ω, bypassed: true }.',
    '9:81 error wrong-type\n  A group of keys is expected here, but this is "-40 V".',
  ],
  [
    'two stages of one id',
    versionWith(`stages:
  - { id: one, topology: single-ended, device: 2A3, connection: triode, bias: { grid: -40 V } }
  - { id: one, topology: single-ended, device: 2A3, connection: triode, bias: { grid: -40 V } }
`),
    '8:11 error duplicate-id\n  Two entries of this list are called "one".\n  Give one of them another id.',
  ],
  [
    'a misspelt state',
    version.replace('current', 'curent'),
    '4:8 error not-an-option\n  "curent" is not one of "on the bench", "current", "retired", "withdrawn".\n  Did you mean current?',
  ],
  [
    'a state that is none',
    version.replace('current', 'sold'),
    '4:8 error not-an-option\n  "sold" is not one of "on the bench", "current", "retired", "withdrawn".\n  Write one of them.',
  ],
  [
    'a version that follows another without saying what changed',
    versionWith('follows: amplifiers/tern/v1\n'),
    '6:10 error changes-missing\n  A version that follows another says what changed and why.\n  Add changes: with one sentence for each.',
  ],
  [
    'words to builders of no version',
    versionWith('forBuilders: Leave it.\n'),
    '6:14 error for-builders\n  This speaks to builders of the version that this one follows, but it follows none.\n  Add follows: with the id of that version, or remove forBuilders:.',
  ],
  [
    'a withdrawn version without a reason',
    version.replace('current', 'withdrawn'),
    '4:8 error withdrawn\n  A version that is withdrawn says why.\n  Add reason: with one sentence.',
  ],
  [
    'a danger and a reason in a version that is in use',
    versionWith('dangerous: true\nreason: It hums.\n'),
    '6:12 error withdrawn\n  Only a withdrawn version is marked as dangerous.\n  Write state: withdrawn, or remove this key.',
    '7:9 error withdrawn\n  Only a withdrawn version gives a reason.\n  Write state: withdrawn, or remove this key.',
  ],
  [
    'a batch of none',
    versionWith('batch: 0\n'),
    '6:8 error number\n  A whole number from 1 to 100000 is expected here, but this is "0".',
  ],
  [
    'parts in wrong numbers',
    versionWith(
      'parts:\n  - { part: Choke, quantity: 0 }\n  - { part: Choke, quantity: some }\n  - { quantity: 2 }\n',
    ),
    '7:30 error number\n  A number above 0 is expected here, but this is "0".',
    '8:30 error number\n  A number above 0 is expected here, but this is "some".',
    '9:5 error missing-key\n  The key "part" is missing.\n  Add a line "part:" with its value.',
  ],
];

describe('a version', () => {
  const file = 'amplifiers/tern/v2.md';
  test.each(versionCases)('%s', async (_title, source, ...expected) => {
    expect(await problemsOf({ [file]: source })).toBe(told(file, expected));
  });
});

test('an amplifier with every key wrong', async () => {
  const source = '---\ntitle: [ Tern ]\nkind: valve\ntopology: ""\ntubes: 3\n---\n';
  expect(await problemsOf({ 'amplifiers/tern/index.md': source })).toBe(
    told('amplifiers/tern/index.md', [
      '2:1 error missing-key\n  The key "purpose" is missing.\n  Add a line "purpose:" with its value.',
      '2:8 error wrong-type\n  A text is expected here, but this is a list.',
      '3:7 error not-an-option\n  "valve" is not one of "tube", "transistor", "hybrid".\n  Write one of them.',
      '4:11 error value\n  This text is empty; write something here.',
      '5:1 error unknown-key\n  The key "tubes" is not known here.\n  Keys that can stand here: title, purpose, kind, topology, openQuestions.',
    ]),
  );
});

test('a journal.yaml with every key wrong', async () => {
  const source = `title: Bench notes
autor: The bench
site: example.org
wording: valves
mains: 55 Hz
invented: yes
mdx: 1
instruments:
  - { id: Scope, bits: 99, gainAccuracy: 3 dB, bandwidth: 20 }
  - { id: probe, name: Probe }
  - { id: probe, name: Probe }
openQuestions: Why?
`;
  expect(await problemsOf({ 'journal.yaml': source })).toBe(
    told('journal.yaml', [
      '1:1 error missing-key\n  The key "author" is missing.\n  Add a line "author:" with its value.',
      '2:1 error unknown-key\n  The key "autor" is not known here.\n  Did you mean author?',
      '3:7 error site-address\n  "example.org" is not the address of a site.\n  Write it in full, for example https://example.org.',
      '4:10 error not-an-option\n  "valves" is not one of "tube", "valve".\n  Did you mean valve?',
      '5:8 error mains\n  The mains has 50 Hz or 60 Hz.\n  Write 50 Hz or 60 Hz.',
      '6:11 error wrong-type\n  Either true or false is expected here, but this is "yes".',
      '7:6 error wrong-type\n  Either true or false is expected here, but this is 1.',
      '9:5 error missing-key\n  The key "name" is missing.\n  Add a line "name:" with its value.',
      '9:11 error short-name\n  "Scope" cannot stand in an address.\n  Use small letters, digits and hyphens, for example tone-1w.',
      '9:24 error number\n  A whole number from 1 to 32 is expected here, but this is "99".',
      '9:42 error quantity\n  "3 dB" is a level, but a ratio is expected here.\n  Write a value such as 43 %.',
      '9:59 error quantity\n  "20" has no unit; a frequency is expected here.\n  Write it with its unit, for example 1 kHz.',
      '12:16 error wrong-type\n  A list is expected here, but this is "Why?".',
    ]),
  );
});

test('an instrument called like another is told at the second', async () => {
  const instruments = 'instruments:\n  - { id: probe, name: Probe }\n  - { id: probe, name: Probe }\n';
  expect(await problemsOf({ 'journal.yaml': settings + instruments })).toBe(
    told('journal.yaml', [
      '5:11 error duplicate-id\n  Two entries of this list are called "probe".\n  Give one of them another id.',
    ]),
  );
});

test('faults of several files are told in one pass, and a sound record may refer to a faulty one', async () => {
  const files = {
    'amplifiers/tern/index.md': '---\ntitle: Tern\npurpose: Test.\nkind: tube\n---\n',
    'amplifiers/tern/v1.md': version.replace('2026-01-10', 'soon'),
    'logs/first/index.md': log('version: amplifiers/tern/v1\n'),
    'logs/second/index.md': log('tags: hum\n'),
  };
  expect(await problemsOf(files)).toBe(`
amplifiers/tern/index.md:2:1 error missing-key
  The key "topology" is missing.
  Add a line "topology:" with its value.
amplifiers/tern/v1.md:3:7 error date
  "soon" is not a date.
  Write year, month and day, for example 2026-02-07.
logs/second/index.md:6:7 error wrong-type
  A list is expected here, but this is "hum".
`);
});

test('a topology that is not known is told with the nearest one that is', async () => {
  const source = versionWith('stages:\n  - { id: output, topology: singleended }\n');
  const told = await problemsOf({ 'amplifiers/tern/v2.md': source });
  expect(told).toContain('7:29 error not-an-option\n  "singleended" is not one of "single-ended", ');
  expect(told).toContain('Did you mean single-ended?');
});

test('an unknown key of a stage is told with the nearest key of that kind of stage', async () => {
  const source = versionWith(`stages:
  - { id: output, topology: single-ended, device: 2A3, connection: triode, bias: { grid: -45 V }, plateVolts: 250 V }
`);
  const told = await problemsOf({ 'amplifiers/tern/v2.md': source });
  expect(told).toContain('7:99 error unknown-key\n  The key "plateVolts" is not known here.');
});
