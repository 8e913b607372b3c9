import { readFileSync } from 'node:fs';
import { performance } from 'node:perf_hooks';
import { parse, View } from 'vega';
import { compile, type TopLevelSpec } from 'vega-lite';

/** Compiles, parses and renders a share of the charts of a file, each afresh, and prints the seconds that it took and how many. */
const [share = '0', shares = '1', file = ''] = process.argv.slice(2);
const lines = readFileSync(file, 'utf8').trim().split('\n');
const specs = lines.filter((_, index) => index % Number(shares) === Number(share));
const started = performance.now();
for (const spec of specs) {
  const view = new View(parse(compile(JSON.parse(spec) as TopLevelSpec).spec), { renderer: 'none' });
  await view.toSVG();
  view.finalize();
}
console.log(`${(performance.now() - started) / 1000} ${specs.length}`);
