import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { browserMissing, findBrowser, installBrowser } from './support/browser.ts';

/** Everything that must hold before a change lands: types, lint, and every test. Ends with one line of counts. */
interface Count {
  passed: number;
  failed: number;
}

const bin = (name: string) => join('node_modules', '.bin', name);

function step(title: string, command: string, args: readonly string[]): Count {
  console.log(`\n${title}`);
  const { status } = spawnSync(command, args, { stdio: 'inherit' });
  const passed = status === 0;
  if (!passed) console.log(`${title}: failed`);
  return passed ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 };
}

function browser(): Count {
  if (findBrowser() ?? installBrowser()) return { passed: 1, failed: 0 };
  console.log(browserMissing);
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

/** A test that was skipped counts as failed: a gap is not to hide behind it. */
function countsOf(report: string): Count {
  const { numPassedTests, numTotalTests } = JSON.parse(report) as Record<string, number>;
  const passed = numPassedTests ?? 0;
  return { passed, failed: (numTotalTests ?? 0) - passed };
}

const counts = [
  browser(),
  step('Types', bin('astro-check'), ['--minimumFailingSeverity', 'warning']),
  step('Lint', bin('biome'), ['ci', '--error-on-warnings']),
  step('Unused files, exports and dependencies', bin('knip'), []),
  unitTests(),
];
const total = counts.reduce((sum, { passed, failed }) => ({
  passed: sum.passed + passed,
  failed: sum.failed + failed,
}));
console.log(`\n${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed === 0 ? 0 : 1;
