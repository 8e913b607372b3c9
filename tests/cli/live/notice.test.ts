import { expect, test } from 'vitest';
import { noticeOf, problemPage } from '../../../src/cli/live/notice.ts';
import type { Problem } from '../../../src/problem/index.ts';

const problem: Problem = {
  ...{ file: 'logs/a&b/index.md', line: 3, column: 7, rule: 'date', severity: 'error' },
  ...{ message: 'The text "<script>" is no date.', hint: 'Write <b>2026</b>.' },
};
const framed = { problem, frame: ['3 | date: <script>alert(1)</script>', '  |       ^'] };
const text = (html: string) => html.replaceAll(/<style>[\s\S]*?<\/style>/g, '');

test('an error stands under its file with place, message, rule, code frame and hint', () => {
  const html = text(noticeOf([framed], 'A remark.'));
  expect(html).toContain('<h2>One error is open</h2><p>A remark.</p><h3>logs/a&#38;b/index.md</h3>');
  expect(html).toContain(
    '<strong>3:7</strong> The text &#34;&#60;script&#62;&#34; is no date. <small>date</small>',
  );
  expect(html).toContain('>3 | date: &#60;script&#62;alert(1)&#60;/script&#62;\n  |       ^</pre>');
  expect(html).toContain('<p>Write &#60;b&#62;2026&#60;/b&#62;.</p>');
});

test('nothing that was written reaches the page as markup', () => {
  for (const html of [noticeOf([framed], '<i>'), problemPage([framed], '<i>')])
    expect(html).not.toMatch(/<(?:script>|b>|i>)/);
});

test('without an error there is no notice, as warnings stop nothing', () => {
  expect(noticeOf([], 'A remark.')).toBe('');
  expect(noticeOf([{ ...framed, problem: { ...problem, severity: 'warning' } }], 'A remark.')).toBe('');
});

test('errors of one file stand together, and of very many the rest is counted', () => {
  const many = Array.from({ length: 40 }, () => framed);
  const html = text(noticeOf(many, ''));
  expect(html.match(/<h3>/g)).toHaveLength(1);
  expect(html.match(/<li>/g)).toHaveLength(30);
  expect(html).toContain('<h2>40 errors are open</h2>');
  expect(html).toContain('And 10 more, which the terminal lists.');
});

test('the page of errors follows the journal by the script that every live page has, under its policy', () => {
  const html = problemPage([framed], '');
  expect(html).toContain('<script type="module" src="/@vite/client">');
  expect(html).toMatch(/Content-Security-Policy" content="default-src 'none'; script-src 'self'/);
  expect(html).toContain('<h1>This page cannot be shown</h1>');
});
