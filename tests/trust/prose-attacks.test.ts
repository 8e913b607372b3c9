import { describe, expect, test } from 'vitest';
import { problemsOf, proseOf, settings } from '../support/journal.ts';

/** Markup that runs something, loads something from elsewhere, or leads to code; text about it has its signs escaped. */
const active =
  /<(?:script|iframe|object|embed|form|link|meta|base|svg|style|video|audio)\b|<[^>]*\s(?:on\w+|style|srcdoc|formaction)\s*=|<a\s[^>]*href="?\s*(?!https?:|mailto:|#|\/|")|<img\s[^>]*src="?(?:https?:|data:|\/\/)/i;

describe('what would run is refused', () => {
  test.each([
    ['a link', '[a](javascript:x())'],
    ['a link in mixed capitals', '[a](JaVaScRiPt:x())'],
    ['a link with a character reference', '[a](java&#115;cript:x())'],
    ['a link with a named reference', '[a](javascript&colon;x())'],
    ['a link with a tab', '[a](<java&Tab;script:x()>)'],
    ['a link with a line end', '[a](<java&NewLine;script:x()>)'],
    ['a link with a control character', '[a](&#1;javascript:x())'],
    ['a link with a space of another kind', '[a](&#x2003;javascript:x())'],
    ['a link with percent signs', '[a](javascript%3Ax())'],
    ['a link to data', '[a](data:text/html;base64,PHNjcmlwdD4=)'],
    ['a link to another script', '[a](vbscript:x)'],
    ['a link to a file of the machine', '[a](file:///etc/passwd)'],
    ['a link to another host without a scheme', '[a](//outside.invalid/)'],
    ['a link with backslashes', '[a](\\\\\\\\outside.invalid/)'],
    ['an automatic link', '<javascript:x()>'],
    ['an automatic link to data', '<data:text/html,x>'],
    ['a link by reference', '[a][b]\n\n[b]: javascript:x()'],
    ['a definition that nothing names', '[b]: JAVASCRIPT:x()'],
    ['a link in a heading', '# [a](javascript:x())'],
    ['a link in a table', '| [a](javascript:x()) |\n|-|'],
    ['a link in a note', 'A[^1]\n\n[^1]: [a](javascript:x())'],
    ['a link in a container', ':::note\n[a](javascript:x())\n:::'],
    ['a link in the label of a directive', ':name[[a](javascript:x())]'],
    ['a picture', '![a](javascript:x())'],
    ['a picture of data', '![a](data:image/svg+xml,%3Csvg/onload=x()%3E)'],
    ['a picture from elsewhere', '![a](https://outside.invalid/a.png)'],
    ['a picture by reference', '![a][b]\n\n[b]: //outside.invalid/a.png'],
    ['a link in a formula', '$\\href{javascript:x()}{a}$'],
    ['an address in a formula', '$\\url{javascript:x()}$'],
    ['a picture in a formula', '$\\includegraphics{https://outside.invalid/a.png}$'],
    ['an attribute in a formula', '$\\htmlData{x=1}{a}$'],
    ['a style in a formula', '$\\htmlStyle{background:url(//outside.invalid)}{a}$'],
    ['a class in a formula', '$\\htmlClass{danger}{a}$'],
    ['an attribute of a directive', '::chart{capture="tone" onclick="x()"}'],
    ['a style of a container', ':::note{style="x"}\nText.\n:::'],
  ])('%s', async (_title, body) => {
    const { problems } = await proseOf(`${body}\n`);
    expect(problems).toContain(' error ');
  });
});

describe('what only looks like code is text', () => {
  test.each([
    ['an import', "import fs from 'node:fs'"],
    ['an export', 'export const a = process.exit(1)'],
    ['an expression', '{process.exit(1)}'],
    ['an expression in a sentence', 'A {globalThis.x = 1} B'],
    ['a component', 'A \\<Chart capture="tone" /> B'],
    ['code', '`<script>x()</script>`'],
    ['a fence', '```html\n<script>x()</script>\n```'],
    ['a fence with a hostile language', '```"onmouseover="x()\nx\n```'],
    ['references', '&lt;script&gt;x()&lt;/script&gt; &#60;img src=x onerror=x()&#62;'],
    ['a title', '[a](https://example.org "\\" onclick=\\"x()")'],
    ['a heading', '## \\<img src=x onerror=x()> {#a onclick=x()}'],
    ['braces behind a link', '[a](https://example.org){onclick=x()}'],
    ['a formula', '$\\text{<script>x()</script>}$'],
  ])('%s', async (_title, body) => {
    const { html, problems } = await proseOf(`${body}\n`);
    expect(problems).toBe('\n\n');
    expect(html?.replaceAll(/ (?:title|alt)="[^"]*"/g, '')).not.toMatch(active);
    expect(html).not.toBe('');
  });

  test('in .md nothing of it is run while the journal is opened', async () => {
    await proseOf('export const a = (globalThis.hostile = 1)\n\n{globalThis.hostile = 2}\n');
    expect(globalThis).not.toHaveProperty('hostile');
  });
});

test.each([
  ['the address of the site', 'site: javascript:x()', 'site-address'],
  ['the address of the licence', 'licence: { name: CC-BY-4.0, address: "javascript:x()" }', 'licence'],
])('%s in journal.yaml is one of the web', async (_title, line, rule) => {
  expect(await problemsOf({ 'journal.yaml': `${settings}${line}\n` })).toMatch(
    new RegExp(`journal\\.yaml:3:\\d+ error ${rule}`),
  );
});
