import { expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { problemsOf, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

const part = (keys: string) => `---\ntitle: Output transformer\nkind: transformer\n${keys}---\n`;
const turns = 'primary: 5 kΩ\nsecondary: 8 Ω\n';
const stage = (keys: string) =>
  versionWith(
    `stages:\n  - { id: output, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }, ${keys} }\n`,
  );

test('a stage takes its load from a part record and the speaker on it', async () => {
  const files = {
    'parts/opt.md': part(turns),
    'amplifiers/tern/v1.md': stage('transformer: parts/opt, speaker: 8 Ω'),
  };
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  const sheet = journal?.versions[0]?.sheet?.stages[0];
  expect(problems).toEqual([]);
  expect(journal?.parts.map(({ id }) => id)).toEqual(['parts/opt']);
  expect(sheet && 'output' in sheet ? sheet.output?.loadOhm : null).toBeCloseTo(5000, 9); // rounding
});

test('the primary inductance measured with a shorted secondary is refused with the reason', async () => {
  const keys = `${turns}primaryInductance: { value: 30 H, level: 10 V, frequency: 50 Hz, secondary: shorted }\n`;
  const found = await problemsOf({ 'parts/opt.md': part(keys) });
  expect(found).toContain('parts/opt.md:6:77 error measuring-condition');
  expect(found).toContain('With the secondary shorted the leakage is measured');
});

test.each([
  ['transformer: parts/opt', 'Add speaker:'],
  ['speaker: 8 Ω', 'The stage has speaker:, but no transformer.'],
  ['transformer: parts/otp, speaker: 8 Ω', 'Did you mean parts/opt?'],
  ['transformer: parts/opt, tap: 8 Ω, speaker: 8 Ω', 'has one secondary without taps'],
  ['transformer: parts/opt, speaker: loud', 'neither a resistance nor a capture'],
  ['transformer: parts/opt, speaker: 8 Ω, load: 5 kΩ', 'not both'],
])('%s is a located problem', async (keys, says) => {
  const found = await problemsOf({ 'parts/opt.md': part(turns), 'amplifiers/tern/v1.md': stage(keys) });
  expect(found).toContain(says);
  expect(found).toMatch(/amplifiers\/tern\/v1\.md:7:\d+ error/);
});
