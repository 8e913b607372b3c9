import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { inferSchema, initParser } from 'udsv';

/** Splits and converts a share of a journal's captures with the splitting library alone, and prints how many rows. */
const [share = '0', shares = '1', journal = ''] = process.argv.slice(2);
const files = globSync('logs/*/*.csv', { cwd: journal }).sort();
let rows = 0;
for (const file of files.filter((_, index) => index % Number(shares) === Number(share))) {
  const text = readFileSync(join(journal, file), 'utf8').replaceAll(/^#.*\n/gm, '');
  rows += initParser(inferSchema(text)).typedCols(text)[0]?.length ?? 0;
}
console.log(rows);
