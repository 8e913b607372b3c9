import { describe, expect, test } from 'vitest';
import type { Outcome } from '../../src/compare/index.ts';
import { openJournal } from '../../src/journal/index.ts';
import type { Journal } from '../../src/journal/types.ts';
import { claimsAbout, claimsOfSheet, decisionsOn, recordText, rulesOf } from '../../src/site/claims.ts';
import { decisionWith, measuredFolder } from '../support/claims.ts';
import { amplifier } from '../support/journal.ts';

const stage =
  'stages:\n  - { id: output, topology: single-ended, device: 300B, connection: triode, plate: 300 V, bias: { grid: -61 V }, load: 3400 Ω }\n';
const of = 'of: logs/first/new#load, than: logs/first/old#load';

/** An expectation written a day before the captures. */
const expected = (says: string, keys: string) =>
  `  - { says: ${says}, date: 2026-01-17, figure: harmonic-2, ${keys} }\n`;

async function journalWith(files: Record<string, string>): Promise<Journal> {
  const { journal } = await openJournal(measuredFolder(files));
  if (!journal) throw new Error('The journal cannot be opened.');
  return journal;
}

/** Two decisions about two amplifiers, with three tests of one rule and two of none. */
const twoDecisions = () =>
  journalWith({
    'amplifiers/wagtail/index.md': amplifier.replaceAll('Tern', 'Wagtail'),
    'amplifiers/tern/v1.md': `---\ntitle: Tern 1\ndate: 2026-01-10\nstate: current\nsummary: The first.\n${stage}---\n`,
    'decisions/0001-one.md': decisionWith(
      `state: open\nexpectations:\n${expected('Less', `rule: less, ${of}, relation: lower`)}${expected('More', `${of}, relation: higher`)}${expected('Later', 'rule: less, against: 1 %, relation: lower')}`,
    ),
    'decisions/0002-two.md': decisionWith(
      `state: open\nexpectations:\n${expected('Less again', `rule: less, ${of}, relation: lower, by: 20 dB`)}evidence:\n  - { says: Enough, figure: power, of: amplifiers/tern/v1#output, against: 1 W, relation: higher }\n`,
    ).replace('amplifiers/tern\n', 'amplifiers/wagtail\n'),
  });

describe('rules of thumb', () => {
  test('are counted over the whole journal, with the amplifiers that they were tested on', async () => {
    const [less, more, ...others] = rulesOf(await twoDecisions());
    expect(others).toEqual([]);
    expect(less).toMatchObject({ held: 1, failed: 1, amplifiers: ['amplifiers/tern', 'amplifiers/wagtail'] });
    expect(less?.claims.map(({ claim }) => claim.judgement.outcome)).toEqual<Outcome[]>([
      'holds',
      'no data',
      'does not hold',
    ]);
    expect(less && recordText(less)).toBe('held 1 of 3, failed 1, not decided 1');
    expect(more).toMatchObject({ held: 0, failed: 1, amplifiers: ['amplifiers/tern'] });
    expect(more && recordText(more)).toBe('held 0 of 1, failed 1');
  });
});

describe('what claims rest on leads back to them', () => {
  const says = (found: ReturnType<typeof claimsAbout>) => found.map(({ claim }) => claim.data.says);

  test('from a capture, whichever side of the claim it is on', async () => {
    const journal = await twoDecisions();
    expect(says(claimsAbout('logs/first/old', journal))).toEqual(['Less', 'More', 'Less again']);
    expect(says(claimsAbout('logs/first/old-sweep', journal))).toEqual([]);
  });

  test('from the load sheet of a version', async () => {
    const journal = await twoDecisions();
    expect(says(claimsOfSheet('amplifiers/tern/v1', journal))).toEqual(['Enough']);
    expect(says(claimsOfSheet('logs/first', journal))).toEqual([]);
  });

  test('from a log, and from no log whose name only begins alike', async () => {
    const journal = await twoDecisions();
    expect(decisionsOn('logs/first', journal).map(({ number }) => number)).toEqual(['0001', '0002']);
    expect(decisionsOn('logs/fir', journal)).toEqual([]);
    const alone = await journalWith({ 'decisions/0001-one.md': decisionWith('state: open\n') });
    expect(decisionsOn('logs/first', alone)).toEqual([]);
  });
});
