import { expect, test } from 'vitest';
import { piecesOf } from '../../src/site/places.ts';

test('prose is cut at its placeholders, in order, and keeps every other character', () => {
  const html =
    '<p>a</p><figure data-place="chart" data-capture="tone" data-kind="excerpt"></figure><p>b</p><figure data-place="summary" data-capture="tone"></figure>';
  expect(piecesOf(html)).toEqual([
    { html: '<p>a</p>' },
    { place: 'chart', capture: 'tone', kind: 'excerpt', channel: null },
    { html: '<p>b</p>' },
    { place: 'summary', capture: 'tone', kind: null, channel: null },
    { html: '' },
  ]);
});

test('an ordinary figure is left alone', () => {
  const html = '<figure><img src="a.svg" alt="a"></figure>';
  expect(piecesOf(html)).toEqual([{ html }]);
});

test('a figure in running text is a place of its own inside its paragraph', () => {
  const html = '<p>It is <span data-place="figure" data-figure="thd" data-of="a#b"></span> now.</p>';
  expect(piecesOf(html)).toEqual([
    { html: '<p>It is ' },
    { place: 'figure', figure: 'thd', of: 'a#b' },
    { html: ' now.</p>' },
  ]);
});
