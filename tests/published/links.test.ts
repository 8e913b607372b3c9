import { LinkChecker } from 'linkinator';
import { expect, inject, test } from 'vitest';

test('every link and fragment of the demo site leads somewhere', async () => {
  const checker = new LinkChecker();
  const result = await checker.check({
    path: inject('site'),
    recurse: true,
    checkFragments: true,
    checkCss: true,
    linksToSkip: ['^https?://(?!localhost|127\\.0\\.0\\.1)'],
  });
  const broken = result.links
    .filter(({ state }) => state === 'BROKEN')
    .map(({ url, parent }) => `${url} from ${parent}`);
  expect(broken).toEqual([]);
  expect(result.links.length).toBeGreaterThan(60);
});
