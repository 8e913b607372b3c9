import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { priceText } from '../../src/quantity/index.ts';
import { allDangers, dangersTo } from '../../src/site/dangers.ts';
import { figuresOverTime } from '../../src/site/figures-over-time.ts';
import { costOfNewParts, toldApart } from '../../src/site/newer-version.ts';
import { awaitedParts, openQuestions } from '../../src/site/open-points.ts';
import { decisionWith, secondCsv } from '../support/claims.ts';
import { type Files, log, settings, smallJournal, versionWith, writeFiles } from '../support/journal.ts';

const first = 'amplifiers/tern/v1';
const second = 'amplifiers/tern/v2';
const following = `follows: ${first}\nchanges: [ Another tube. ]\n`;

async function opened(files: Files) {
  const { journal, problems } = await openJournal(writeFiles({ ...smallJournal, ...files }));
  if (!journal) throw new Error('no journal');
  return { ...journal, problems, version: (id: string) => versionOf(journal.versions, id) };
}

function versionOf<T extends { id: string }>(versions: readonly T[], id: string): T {
  const found = versions.find((one) => one.id === id);
  if (!found) throw new Error(`no version ${id}`);
  return found;
}

const withdrawn = (keys: string) =>
  versionWith(keys).replace('state: current', 'state: withdrawn\nreason: It keeps its charge.');

describe('dangers', () => {
  const shown = (versions: string[] | null) => ({ amplifier: 'amplifiers/tern', versions });

  test('are versions withdrawn as dangerous, with the decisions about them, and other such decisions', async () => {
    const dangerous = (keys: string) => decisionWith(`state: withdrawn\ndangerous: true\n${keys}`);
    const journal = await opened({
      [`${first}.md`]: withdrawn('dangerous: true\n'),
      [`${second}.md`]: versionWith(following),
      'decisions/0001-a.md': dangerous(`version: ${first}\ndecision: Do not use it.\n`),
      'decisions/0002-b.md': dangerous('decision: Use none of them.\n'),
    });
    expect(journal.problems).toEqual([]);
    const of = (versions: string[] | null) =>
      dangersTo(shown(versions), journal).map(({ version, reason, decisions }) => [
        version,
        reason,
        decisions.map(({ number }) => number),
      ]);
    const ofVersion = [first, 'It keeps its charge.', ['0001']];
    const ofAll = [null, 'Use none of them.', ['0002']];
    expect(of(null)).toEqual([ofVersion, ofAll]);
    expect(of([first])).toEqual([ofVersion, ofAll]);
    expect(of([second])).toEqual([ofAll]);
    expect(dangersTo({ amplifier: 'amplifiers/gull', versions: null }, journal)).toEqual([]);
    expect(allDangers(journal)).toHaveLength(2);
  });

  test('are not versions that are withdrawn for another reason', async () => {
    expect(allDangers(await opened({ [`${first}.md`]: withdrawn('') }))).toEqual([]);
  });
});

describe('what a newer version changes', () => {
  test('costs the parts that the older one does not have in kind, value and number', async () => {
    const parts = (...list: string[]) => `parts: [ ${list.map((one) => `{ ${one} }`).join(', ')} ]\n`;
    const tube = 'part: Tube, value: 2A3, price: 40 EUR';
    const journal = await opened({
      [`${first}.md`]: versionWith(
        parts(tube, 'part: Choke, value: 5 H, price: 9 EUR', 'part: Fuse, price: 1 EUR'),
      ),
      [`${second}.md`]: versionWith(
        following +
          parts(
            tube,
            'part: Choke, value: 8 H, price: 20.50 EUR',
            'part: Fuse, quantity: 2, price: 1 EUR',
            'part: Lamp, price: 3 USD',
          ),
      ),
    });
    const cost = costOfNewParts(journal.version(second), journal.version(first));
    expect(cost.map((price) => priceText(price).replace('\u00a0', ' '))).toEqual(['22.50 EUR', '3 USD']);
  });

  test('is what captures tell apart, and not what they do not', async () => {
    const capture = (file: string, version: string) =>
      `  - { file: ${file}.csv, title: ${file}, version: ${version}, load: 8 Ω, conditions: { level: 1 W } }\n`;
    const journal = await opened({
      [`${second}.md`]: versionWith(following),
      'logs/first/index.md': log(`captures:\n${capture('a', first)}${capture('b', second)}`),
      'logs/first/a.csv': secondCsv(2),
      'logs/first/b.csv': secondCsv(0.5),
    });
    const found = toldApart(journal.logs, journal.version(second), journal.version(first));
    const ids = found.map(({ before }) => before.id);
    expect(ids).toContain('harmonic-2');
    // Both records have the same noise and no third harmonic.
    expect(ids).not.toContain('harmonic-3');
    expect(ids).not.toContain('noise');
    expect(found[0]?.sources.map(({ title }) => title)).toEqual(['a', 'b']);
  });
});

describe('figures over time', () => {
  const capture = (file: string, version: string, level = '1 W') =>
    `  - { file: ${file}.csv, title: ${file}, version: ${version}, conditions: { level: ${level} } }\n`;
  const keys = 'keyFigures: [ { figure: harmonic-2, of: a } ]\n';

  async function figures(captures: string, more: Files = {}) {
    const journal = await opened({
      [`${second}.md`]: versionWith(following),
      'logs/first/index.md': log(`captures:\n${captures}${keys}`),
      ...Object.fromEntries(
        ['a', 'b', 'c'].map((name, i) => [`logs/first/${name}.csv`, secondCsv(2 - i / 2)]),
      ),
      ...more,
    });
    const [amplifier] = journal.amplifiers;
    if (!amplifier) throw new Error('no amplifier');
    return figuresOverTime(amplifier, journal.logs);
  }

  test('are those that a log puts at its top, where two versions have them under the same conditions', async () => {
    const [found, ...others] = await figures(capture('a', first) + capture('b', second));
    expect(others).toEqual([]);
    expect(found).toMatchObject({ name: 'Second harmonic', from: 'waveform, 1 W' });
    expect([...(found?.values ?? [])].map(([version, { page }]) => [version, page])).toEqual([
      [first, 'logs/first/a'],
      [second, 'logs/first/b'],
    ]);
    // 2 % and 1.5 % as the files were made; the noise moves them by less than 0.01 %.
    expect(Math.abs((found?.values.get(second)?.value ?? 0) - 0.015)).toBeLessThan(1e-4);
    expect(await figures(capture('a', first) + capture('b', second, '2 W'))).toEqual([]);
  });

  test('are of the newest capture of each version', async () => {
    const [found] = await figures(capture('a', first) + capture('b', second) + capture('c', second));
    expect(found?.values.get(second)?.page).toBe('logs/first/c');
  });
});

describe('open points', () => {
  test('are open decisions, logs without an answer, own questions, and those of the journal that name the amplifier', async () => {
    const amplifier = `${String(smallJournal['amplifiers/tern/index.md']).replace(/---\n$/, '')}openQuestions: [ Why green? ]\n---\n`;
    const journal = await opened({
      'journal.yaml': `${settings}openQuestions: [ Does Tern last?, Do Terns last?, "Tern's hum?", Why at all? ]\n`,
      'amplifiers/tern/index.md': amplifier,
      'decisions/0001-a.md': decisionWith('state: open\n'),
      'decisions/0002-b.md': decisionWith('state: decided\ndecision: Yes.\n'),
      'logs/second/index.md': log('answer: Yes.\n'),
    });
    const [tern] = journal.amplifiers;
    const found = tern ? openQuestions(tern, journal) : [];
    expect(found.map(({ text, record }) => [text, record?.id ?? null])).toEqual([
      ['Which one?', 'decisions/0001-a'],
      ['Does it hum?', 'logs/first'],
      ['Why green?', null],
      ['Does Tern last?', null],
      ["Tern's hum?", null],
    ]);
  });

  test('are parts that are not in hand and that a decision or a version waits for', async () => {
    const part = (state: string) => `---\ntitle: Part\nkind: other\nstate: ${state}\n---\n`;
    const journal = await opened({
      'parts/a.md': part('ordered'),
      'parts/b.md': part('in hand'),
      'parts/c.md': part('to be wound'),
      'parts/d.md': part('to be borrowed'),
      [`${first}.md`]: versionWith('parts: [ { part: A, record: parts/a }, { part: B, record: parts/b } ]\n'),
      'decisions/0001-a.md': decisionWith(
        'state: open\noptions: [ { id: a, title: A, part: parts/a }, { id: c, title: C, part: parts/c } ]\n',
      ),
    });
    const [tern] = journal.amplifiers;
    const found = tern ? awaitedParts(tern, journal) : [];
    expect(found.map((one) => [one.part.id, one.for.map(({ id }) => id)])).toEqual([
      ['parts/a', ['decisions/0001-a', first]],
      ['parts/c', ['decisions/0001-a']],
    ]);
  });
});
