import { parseArgs } from 'node:util';
import { campaign, planOf } from './campaign.ts';
import { failureOf } from './cases.ts';

/** Reads many spoilt files and says which of them are not read as they should be. */
const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '1000000' },
    seed: { type: 'string', default: String(Date.now() % 1_000_000) },
    target: { type: 'string' },
    case: { type: 'string' },
  },
});
const { target, case: one } = values;
const seed = Number(values.seed);

if (one !== undefined && target !== undefined) {
  console.log((await failureOf(target, seed, Number(one))) ?? 'It is read as it should be.');
} else {
  for (const { target: name, count } of planOf(Number(values.cases), target)) {
    const begun = performance.now();
    const failures = await campaign(name, count, seed);
    const seconds = ((performance.now() - begun) / 1000).toFixed(1);
    console.log(`${name}: ${count} cases in ${seconds} s, ${failures.length} failures`);
    for (const { number, failure } of failures) {
      console.log(`  npm run fuzz -- --target ${name} --seed ${seed} --case ${number}\n  ${failure}\n`);
      process.exitCode = 1;
    }
  }
}
