import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { launchBrowser } from '../support/visit.ts';
import { budgets } from './budgets.ts';
import { faultOf, isKept, type Measured, measureBudgets, printed } from './measure.ts';

/** Prints each budget beside what the heaviest page of its kind takes, and fails where one is exceeded. */
const folder = process.argv[2] ?? 'dist';

function table(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) => Math.max(...rows.map((row) => row[column]?.length ?? 0)));
  return rows
    .map((row) =>
      row
        .map((cell, column) => cell.padEnd(widths[column] ?? 0))
        .join('  ')
        .trimEnd(),
    )
    .join('\n');
}

const rowOf = (one: Measured) => [
  one.page,
  one.counted,
  one.measured === null ? 'no such page' : printed(one.counted, one.measured),
  printed(one.counted, one.most),
  one.reason,
];

async function run(): Promise<number> {
  if (!existsSync(join(folder, 'index.html'))) {
    console.error(`${folder} holds no site; build one first, for example with npm run demo.`);
    return 2;
  }
  const browser = await launchBrowser();
  const measured = await measureBudgets(browser, folder, budgets);
  await browser.close();
  console.log(
    'Weights in kB of 1000 bytes, text compressed by gzip, pictures apart; the heaviest page of each kind.\n',
  );
  console.log(table([['page', 'counted', 'measured', 'allowed', 'reason'], ...measured.map(rowOf)]));
  const faults = measured.filter((one) => !isKept(one)).map(faultOf);
  console.log(faults.length === 0 ? `\n${measured.length} budgets kept.` : `\n${faults.join('\n')}`);
  return faults.length === 0 ? 0 : 1;
}

process.exitCode = await run();
