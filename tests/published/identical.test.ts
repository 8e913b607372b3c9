import { spawnSync } from 'node:child_process';
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';
import { plainEnvironment } from '../support/command.ts';
import { temporaryFolder } from '../support/journal.ts';
import { treeOf } from '../support/tree.ts';

/** Sets the clock of a process forward by 100 days and some hours. */
const laterClock = `
  const ahead = (100 * 24 + 7) * 3_600_000;
  const Now = Date;
  globalThis.Date = class Date extends Now {
    constructor(...args) { super(...(args.length === 0 ? [Now.now() + ahead] : args)); }
    static now() { return Now.now() + ahead; }
  };`;

/** Builds the demo journal anew from a copy without anything kept from other builds. */
function builtElsewhere(zone: string, language: string) {
  const [journal, out] = [join(temporaryFolder(), 'notes'), join(temporaryFolder(), 'site')];
  const filter = (source: string) => !source.includes('.quiescent');
  cpSync('content', journal, { recursive: true, filter });
  const clock = `data:text/javascript,${encodeURIComponent(laterClock)}`;
  const args = ['--import', clock, 'src/cli/main.ts', 'build', '--journal', journal, '--out', out];
  const env = { ...plainEnvironment(), TZ: zone, LANG: language, LC_ALL: language };
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', env });
  return { status, stderr, site: status === 0 ? treeOf(out) : {} };
}

test('the demo site has the same bytes from another folder, without caches, in another zone, language and month', () => {
  const { status, stderr, site } = builtElsewhere('Pacific/Auckland', 'tr_TR.UTF-8');
  expect(status, stderr).toBe(0);
  expect(Object.keys(site).length).toBeGreaterThan(200);
  expect(site).toEqual(treeOf(inject('site')));
});
