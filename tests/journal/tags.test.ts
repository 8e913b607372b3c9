import { describe, expect, test } from 'vitest';
import { tagSlug } from '../../src/journal/publishing/tags.ts';
import { log, problemsOf } from '../support/journal.ts';

const tagged = (tags: string) => log(`tags: [ ${tags} ]\n`);

describe('the address of a tag', () => {
  test.each([
    ['2A3', '2a3'],
    ['class AB', 'class-ab'],
    ['Class  AB', 'class-ab'],
    ['THD+N, low end', 'thd-n-low-end'],
    ['Übertrager', 'ubertrager'],
    ['лампа 6П3С', 'лампа-6п3с'],
    ['Tern’s transformer', 'terns-transformer'],
    ['—', ''],
  ])('of "%s" is "%s"', (tag, slug) => {
    expect(tagSlug(tag)).toBe(slug);
  });
});

test('tags written in one way throughout are no problem', async () => {
  const files = {
    'logs/first/index.md': tagged('2A3, class AB'),
    'logs/second/index.md': tagged('class AB, 2A3'),
  };
  expect(await problemsOf(files)).toBe('\n\n');
});

test('a tag without a name for its page, one given twice and one spelt in two ways are told at their places', async () => {
  const files = {
    'logs/first/index.md': tagged('class AB, —'),
    'logs/second/index.md': tagged('Class AB, 2A3, 2a3'),
  };
  expect(await problemsOf(files)).toBe(
    '\nlogs/first/index.md:6:19 error tag-address\n' +
      '  The tag "—" has no letter or digit that could stand in the address of its page.\n' +
      '  Write it in words.\n' +
      'logs/second/index.md:6:9 warning tag-spelling\n' +
      '  The tag "Class AB" is written "class AB" in logs/first; both lead to one page, which is called as it is there.\n' +
      '  Write it the same way everywhere, for example class AB.\n' +
      'logs/second/index.md:6:24 warning tag-twice\n' +
      '  The tag "2a3" stands in this log already.\n' +
      '  Remove one of the two.\n',
  );
});
