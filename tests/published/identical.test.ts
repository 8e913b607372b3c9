import { spawnSync } from 'node:child_process';
import { cpSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
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

interface Machine {
  zone: string;
  language: string;
  /** Words ahead of the command, for the program that runs it. */
  flags?: readonly string[];
}

/** Builds the demo journal from a copy without anything kept from other builds. */
function builtOn({ zone, language, flags = [] }: Machine): Record<string, string> {
  const [journal, out] = [join(temporaryFolder(), 'notes'), join(temporaryFolder(), 'site')];
  const filter = (source: string) => !source.includes('.quiescent');
  cpSync('content', journal, { recursive: true, filter });
  const args = [...flags, 'src/cli/main.ts', 'build', '--journal', journal, '--out', out];
  const env = { ...plainEnvironment(), TZ: zone, LANG: language, LC_ALL: language };
  const { status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8', env });
  expect(status, stderr).toBe(0);
  return treeOf(out);
}

test('the demo site has the same bytes from another folder, in another zone, language and month', () => {
  const flags = ['--import', `data:text/javascript,${encodeURIComponent(laterClock)}`];
  const here = builtOn({ zone: 'America/Los_Angeles', language: 'C.UTF-8' });
  expect(Object.keys(here).length).toBeGreaterThan(200);
  expect(builtOn({ zone: 'Pacific/Auckland', language: 'tr_TR.UTF-8', flags })).toEqual(here);
});
