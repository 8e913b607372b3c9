import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { writeFault } from '../../../src/cli/place/write-fault.ts';
import { plainEnvironment } from '../../support/command.ts';
import { smallJournal, temporaryFolder, writeFiles } from '../../support/journal.ts';

const home = '<meta name="generator" content="Quiescent">the site as it was';

/**
 * Builds the small journal onto a small disk of its own, which only that process sees; `prepare` are shell commands
 * ahead of the build, `$disk` the place of the disk.
 */
function builtOnDisk(size: string, prepare: string, out: string) {
  const [disk, journal] = [temporaryFolder(), writeFiles(smallJournal)];
  const script = `mount -t tmpfs -o size=${size} tmpfs "$disk" && mkdir "$disk/site" &&
    printf '%s' '${home}' > "$disk/site/index.html" && ${prepare} || exit 99
    "${process.execPath}" src/cli/main.ts build --journal "${journal}" --out "$disk/${out}"
    code=$?; echo; cat "$disk/site/index.html"; ls -A "$disk"; exit $code`;
  const env = { ...plainEnvironment(), disk };
  const { status, stdout, stderr } = spawnSync(
    'unshare',
    ['--map-root-user', '--mount', 'sh', '-c', script],
    { encoding: 'utf8', env },
  );
  return { status, stdout, notice: stderr.replaceAll(disk, 'DISK') };
}

describe.runIf(process.platform === 'linux')('with the site as it was', () => {
  test('a full disk ends a build with the path and what mends it', () => {
    const { status, stdout, notice } = builtOnDisk('48k', 'true', 'site');
    expect(notice).toMatch(
      /^quiescent: DISK\S* cannot be written: there is no space left on its disk\. Free some\.$/m,
    );
    expect(notice).not.toMatch(/^ {4}at /m);
    expect(stdout).toBe(`\n${home}site\n`);
    expect(status).toBe(1);
  });

  test('a disk that can only be read ends a build with the path and what mends it', () => {
    const { status, stdout, notice } = builtOnDisk('4m', 'mount -o remount,ro "$disk"', 'site');
    expect(notice).toMatch(/^quiescent: DISK\S* cannot be written: its disk can only be read\./m);
    expect(notice).not.toMatch(/^ {4}at /m);
    expect(stdout).toBe(`\n${home}site\n`);
    expect(status).toBe(1);
  });
});

test('a failure inside another is found, and one of another kind is none of these', () => {
  const inner = Object.assign(new Error('EACCES'), {
    code: 'EACCES',
    path: join(process.cwd(), 'dist/a.html'),
  });
  expect(writeFault(new Error('outer', { cause: inner }), 'dist')).toMatch(
    /^dist\/a\.html cannot be written: permission/,
  );
  expect(writeFault(new AggregateError([inner]), 'dist')).toMatch(/permission is denied/);
  expect(writeFault(Object.assign(new Error('no'), { code: 'ENOENT' }), 'dist')).toBeNull();
  expect(writeFault(undefined, 'dist')).toBeNull();
});
