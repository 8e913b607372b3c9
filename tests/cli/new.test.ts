import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { readdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openJournal } from '../../src/journal/index.ts';
import { readKey } from '../../src/listening/index.ts';
import { smallJournal, temporaryFolder, writeFiles } from '../support/journal.ts';
import { ran } from '../support/output.ts';

const name = '2026-01-20-two-tubes';
const record = join('listening', `${name}.md`);

/** Begins a session in a new journal. */
async function begun(...options: string[]) {
  const journal = writeFiles(smallJournal);
  const sealed = temporaryFolder();
  const args = ['new', 'listening', name, '--journal', journal, '--sealed', sealed, ...options];
  return { journal, sealed, args, ...(await ran(...args)) };
}

const orderIn = (text: string) => {
  const read = readKey(text);
  return 'key' in read ? read.key.order : [];
};

describe('new listening', () => {
  test('writes record, key file and sheet that belong together, and the journal is sound with them', async () => {
    const { code, journal, sealed } = await begun('--alternatives', 'old,new', '--trials', '12');
    expect(code).toBe(0);
    expect(readdirSync(sealed).sort()).toEqual([`${name}.key.txt`, `${name}.sheet.txt`]);
    const key = readFileSync(join(sealed, `${name}.key.txt`), 'utf8');
    const hash = createHash('sha256').update(key).digest('hex');
    expect(readFileSync(join(journal, record), 'utf8')).toContain(`\nkeySha256: ${hash}\n`);
    expect(readFileSync(join(sealed, `${name}.sheet.txt`), 'utf8')).toContain(hash);
    expect(orderIn(key)).toHaveLength(12);
    const { journal: opened, problems } = await openJournal(journal);
    expect(problems).toEqual([]);
    expect(opened?.listening[0]).toMatchObject({ sealing: 'sealed', data: { plannedTrials: 12 } });
  });

  test('leaves the order out of the record, and check verifies it once the key lies beside it', async () => {
    const { journal, sealed } = await begun('--trials', '3', '--task', 'preference');
    const key = readFileSync(join(sealed, `${name}.key.txt`), 'utf8');
    const text = readFileSync(join(journal, record), 'utf8');
    const trials = orderIn(key).map((played) => `  - { played: ${played}, answer: a }\n`);
    writeFileSync(join(journal, record), text.replace('trials: []\n', `trials:\n${trials.join('')}`));
    renameSync(join(sealed, `${name}.key.txt`), join(journal, 'listening', `${name}.key.txt`));
    expect(await ran('check', '--journal', journal)).toMatchObject({ code: 0, notice: /No problems/ });
    writeFileSync(join(journal, 'listening', `${name}.key.txt`), key.replace('\n2 ', '\n2  '));
    const { code, notice } = await ran('check', '--journal', journal);
    expect(code).toBe(1);
    expect(notice).toContain('listening-key');
  });

  test('draws another order each time, with both alternatives in it', async () => {
    const keys = await Promise.all(
      [1, 2].map(async () =>
        readFileSync(join((await begun('--trials', '200')).sealed, `${name}.key.txt`), 'utf8'),
      ),
    );
    const [one = [], other = []] = keys.map(orderIn);
    // Two fair orders of 200 are alike with a probability of 2⁻²⁰⁰.
    expect(one).not.toEqual(other);
    const count = one.filter((played) => played === 'a').length;
    // Six standard deviations of 7.07: exceeded by a fair draw twice in a thousand million.
    expect(Math.abs(count - 100)).toBeLessThan(43);
  });

  test('never writes over a file, and writes nothing then', async () => {
    const { journal, sealed, args } = await begun();
    const before = readFileSync(join(journal, record), 'utf8');
    const { code, notice } = await ran(...args);
    expect(code).toBe(1);
    expect(notice).toContain('exists and is not written over. Nothing was written.');
    const elsewhere = temporaryFolder();
    expect((await ran(...args.with(args.indexOf(sealed), elsewhere))).code).toBe(1);
    expect(readdirSync(elsewhere)).toEqual([]);
    expect(readFileSync(join(journal, record), 'utf8')).toBe(before);
  });

  test('keeps a folder of its own for sealed files out of Git, and leaves an existing one as it is', async () => {
    const journal = writeFiles(smallJournal);
    const folder = join(temporaryFolder(), 'sealed');
    const begin = (session: string, sealed: string) =>
      ran('new', 'listening', session, '--journal', journal, '--sealed', sealed);
    await begin('2026-01-20-one', folder);
    expect(readFileSync(join(folder, '.gitignore'), 'utf8')).toBe('*\n');
    spawnSync('git', ['init', '--quiet'], { cwd: dirname(folder) });
    const { stdout } = spawnSync('git', ['status', '--porcelain', '--untracked-files=all'], {
      cwd: dirname(folder),
      encoding: 'utf8',
    });
    expect(stdout).toBe('');
    const existing = temporaryFolder();
    await begin('2026-01-20-two', existing);
    expect(readdirSync(existing).sort()).toEqual(['2026-01-20-two.key.txt', '2026-01-20-two.sheet.txt']);
  });

  test('needs a journal', async () => {
    const folder = temporaryFolder();
    const { code, notice } = await ran('new', 'listening', 'two', '--journal', folder, '--sealed', folder);
    expect(code).toBe(1);
    expect(notice).toContain('is no journal: it has no journal.yaml.');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('gives a name without a date that of today', async () => {
    const journal = writeFiles(smallJournal);
    await ran('new', 'listening', 'two', '--journal', journal, '--sealed', temporaryFolder());
    expect(readdirSync(join(journal, 'listening'))[0]).toMatch(/^\d{4}-\d{2}-\d{2}-two\.md$/);
  });
});

describe('what new cannot begin is refused in one line with exit code 2', () => {
  test.each([
    [
      [],
      'new needs a kind and a name: quiescent new log "Title", or new page "Title", or new listening NAME',
    ],
    [['part', 'x'], 'new cannot begin a record of the kind "part". There are: listening, log, page.'],
    [['log'], 'new log needs a title: quiescent new log "Title" --captures FILE …'],
    [['log', 'First', 'sound'], 'new log takes one title in quotes, but "sound" follows.'],
    [['log', '!?'], 'The title "!?" has no letter or digit that can stand in an address.'],
    [['log', 'x', '--trials', '3'], 'new log takes no option "--trials".'],
    [['listening', 'x', '--captures', 'a.csv'], 'new listening takes no option "--captures".'],
    [['listning', 'x'], 'new cannot begin a record of the kind "listning". Did you mean listening?'],
    [['listening'], 'new listening needs a name: quiescent new listening NAME'],
    [['listening', 'a', 'b'], 'new listening takes one name, but "b" follows.'],
    [
      ['listening', '../a'],
      'A name has small letters, digits and hyphens, such as two-drivers, unlike "../a".',
    ],
    [['listening', 'a', '--trials', '0'], '--trials takes a whole number from 1 to 2000, not "0".'],
    [['listening', 'a', '--task', 'guess'], '--task takes one of discrimination, preference, not "guess".'],
    [
      ['listening', 'a', '--alternatives', 'a,a'],
      '--alternatives takes two different short names, such as old,new, not "a,a".',
    ],
  ])('%j', async (words, message) => {
    expect(await ran('new', ...words)).toEqual({ code: 2, result: '', notice: `quiescent: ${message}` });
  });
});
