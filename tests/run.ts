import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import {
  browserMissing,
  findBrowser,
  findFirefox,
  firefoxMissing,
  installPackages,
} from './support/browser.ts';

/** Everything that must hold before a change lands: types, lint, and every test. Ends with one line of counts. */
interface Count {
  passed: number;
  failed: number;
  skipped?: number;
}

const bin = (name: string) => join('node_modules', '.bin', name);

function step(title: string, command: string, args: readonly string[]): Count {
  console.log(`\n${title}`);
  const { status } = spawnSync(command, args, { stdio: 'inherit' });
  const passed = status === 0;
  if (!passed) console.log(`${title}: failed`);
  return passed ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

function browser(find: () => string | null, name: string, missing: string): Count {
  if (find() === null) installPackages(name);
  if (find() !== null) return { passed: 1, failed: 0 };
  console.log(missing);
  return { passed: 0, failed: 1 };
}

function unitTests(): Count {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-tests-'));
  const report = join(folder, 'report.json');
  console.log('\nTests');
  const reporters = ['--reporter=dot', '--reporter=json', `--outputFile=${report}`];
  const { status } = spawnSync(bin('vitest'), ['run', ...reporters], { stdio: 'inherit' });
  const counts = existsSync(report) ? countsOf(readFileSync(report, 'utf8')) : { passed: 0, failed: 0 };
  rmSync(folder, { recursive: true });
  return status === 0 ? counts : { ...counts, failed: Math.max(1, counts.failed) };
}

/** Only tests on captures outside the project may be passed over, where that folder is missing; they are counted. */
function countsOf(report: string): Count {
  const {
    numPassedTests = 0,
    numFailedTests = 0,
    numTotalTests = 0,
  } = JSON.parse(report) as Record<string, number>;
  return {
    passed: numPassedTests,
    failed: numFailedTests,
    skipped: numTotalTests - numPassedTests - numFailedTests,
  };
}

const counts = [
  browser(findBrowser, 'chromium', browserMissing),
  browser(findFirefox, 'firefox-esr', firefoxMissing),
  step('Types', bin('astro-check'), ['--minimumFailingSeverity', 'warning']),
  step('Lint', bin('biome'), ['ci', '--error-on-warnings']),
  step('Unused files, exports and dependencies', bin('knip'), []),
  unitTests(),
];
const sum = (read: (count: Count) => number | undefined) =>
  counts.reduce((whole, count) => whole + (read(count) ?? 0), 0);
const [passed, failed, skipped] = [sum((of) => of.passed), sum((of) => of.failed), sum((of) => of.skipped)];
console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exitCode = failed === 0 ? 0 : 1;
