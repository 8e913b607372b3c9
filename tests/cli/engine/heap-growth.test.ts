import { spawnSync } from 'node:child_process';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { expect, test } from 'vitest';

/**
 * A process with 80 MB alive makes 400 MB that live for a while, as pages do, and counts collections of the whole heap.
 * What is made is kept in a ring of 40 MB, so that it outlives those of its young part.
 */
function wholeCollections(first: string): number {
  const code = `const { PerformanceObserver, constants } = await import('node:perf_hooks');
    ${first}
    let count = 0;
    const whole = ({ detail }) => detail.kind === constants.NODE_PERFORMANCE_GC_MAJOR;
    new PerformanceObserver((list) => { count += list.getEntries().filter(whole).length; }).observe({ entryTypes: ['gc'] });
    const block = () => Array.from({ length: 12_500 }, (_, index) => [index, index]);
    const alive = Array.from({ length: 100 }, block);
    const ring = [];
    for (let turn = 0; turn < 500; turn++) ring[turn % 50] = block();
    await new Promise((resolve) => setTimeout(resolve, 50));
    console.log(count, alive.length);`;
  const { stdout } = spawnSync(process.execPath, ['--input-type=module', '--eval', code], {
    encoding: 'utf8',
  });
  return Number.parseInt(stdout, 10);
}

test('a heap is collected sooner than V8 would by itself', () => {
  const module = pathToFileURL(path.resolve('src/cli/engine/heap-growth.ts')).href;
  const sooner = wholeCollections(`(await import('${module}')).collectSooner();`);
  expect(sooner).toBeGreaterThan(wholeCollections(''));
});
