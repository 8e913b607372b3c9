import { describe, expect, test } from 'vitest';
import { proseOf } from '../support/journal.ts';

/** The prose as text, with a formula shown as its TeX between vertical bars. */
async function textOf(body: string): Promise<string> {
  const { html, problems } = await proseOf(body);
  expect(problems).toBe('\n\n');
  return (html ?? '')
    .replaceAll(/<math.*?<annotation encoding="application\/x-tex">(.*?)<\/annotation>.*?<\/math>/gs, '|$1|')
    .replaceAll(/<\/?(?:p|span)[^>]*>/g, '')
    .replaceAll('&#x3C;', '<')
    .trim();
}

describe('dollar signs', () => {
  test.each([
    ['two prices', 'It costs $5 and $6.', 'It costs $5 and $6.'],
    ['three prices', 'From $5, $6 or $7 each.', 'From $5, $6 or $7 each.'],
    ['a range', 'From $5-$6, US$5/US$6.', 'From $5-$6, US$5/US$6.'],
    ['prices around emphasis', 'Was $12.50 *new* and $9.00 used.', 'Was $12.50 <em>new</em> and $9.00 used.'],
    ['one alone', 'It costs $5.', 'It costs $5.'],
    ['a price and a formula', 'For $5 one gets $x^2$ of it.', 'For $5 one gets |x^2| of it.'],
    ['a formula and a price', 'With $x$ at $5 and $y$ free.', 'With |x| at $5 and |y| free.'],
    ['spaces inside', 'Between $ a $ and $b $.', 'Between $ a $ and $b $.'],
    ['a digit behind', 'Not $a$5.', 'Not $a$5.'],
    ['a backslash before', String.raw`Not \$x$, but \$5.`, 'Not $x$, but $5.'],
    ['a formula over two lines', 'So $a\nb$ holds.', 'So |a\nb| holds.'],
    ['two signs', 'So $$5$$ is a formula.', 'So |5| is a formula.'],
    ['code', 'The shell has `$x$` and `$5`.', 'The shell has <code>$x$</code> and <code>$5</code>.'],
  ])('%s', async (_title, body, expected) => {
    expect(await textOf(body)).toBe(expected);
  });

  test('two together inside a formula belong to it, as TeX has them', async () => {
    const { problems } = await proseOf('So $a$$b$ is one.');
    expect(problems).toContain(
      "7:6 error maths\n  The formula cannot be set: Can't use function '$' in math mode.",
    );
  });

  test('in the cells of a table', async () => {
    expect(await textOf('| a | b |\n| --- | --- |\n| $5 | $6 |\n| $x$ | $7 |\n')).toContain(
      '<td>$5</td>\n<td>$6</td>\n</tr>\n<tr>\n<td>|x|</td>\n<td>$7</td>',
    );
  });
});

describe('text that only looks like a directive', () => {
  test.each([
    ['a time and a ratio', 'At 12:30 a ratio of 3:1.', 'At 12:30 a ratio of 3:1.'],
    ['brackets and braces', 'Then a:b[c *d*]{e=f} stays.', 'Then a:b[c <em>d</em>]{e=f} stays.'],
    ['a name between colons', 'A :name: and :note[this].', 'A :name: and :note[this].'],
    ['braces behind a digit', 'So 5:1{x} stays.', 'So 5:1{x} stays.'],
    ['two colons in a word', 'See std::vector.', 'See std::vector.'],
    ['a path', String.raw`See C:\x here.`, String.raw`See C:\x here.`],
    ['several in one line', '1:2 and 3:4 and 5:6', '1:2 and 3:4 and 5:6'],
  ])('%s is kept', async (_title, body, expected) => {
    expect(await textOf(body)).toBe(expected);
  });

  test('in a table and a heading is kept', async () => {
    expect(await textOf('## At 12:30\n\n| 8:1 | 10:15 |\n| --- | --- |\n| 1:2 | a:b |\n')).toMatch(
      /<h2 id="at-1230">At 12:30<\/h2>[\s\S]*<th>8:1<\/th>\n<th>10:15<\/th>[\s\S]*<td>1:2<\/td>\n<td>a:b<\/td>/,
    );
  });
});

describe('directives', () => {
  const known = 'Directives that can stand here: ::chart, ::summary, :::note, :figure.';

  test('a note is set beside the text', async () => {
    expect(await proseOf(':::note\nLook at *this*.\n:::\n')).toEqual({
      html: '<div class="margin-note" role="note"><p>Look at <em>this</em>.</p></div>',
      problems: '\n\n',
    });
  });

  test.each([
    [
      'a block that is misspelt',
      '::chrt{capture="a"}',
      'error unknown-directive\n  The directive "::chrt" is not known.\n  Did you mean ::chart?',
    ],
    [
      'a block that is none of them',
      '::video{src="a"}',
      `error unknown-directive\n  The directive "::video" is not known.\n  ${known}`,
    ],
    [
      'a number that stands alone in its line',
      '::12',
      `error unknown-directive\n  The directive "::12" is not known.\n  ${known}`,
    ],
    [
      'a container that is misspelt',
      ':::nots\nText.\n:::',
      'error unknown-directive\n  The directive ":::nots" is not known.\n  Did you mean :::note?',
    ],
    [
      'a chart as a container',
      ':::chart{capture="a"}\n:::',
      'error unknown-directive\n  The directive ":::chart" is not known.\n  Did you mean ::chart?',
    ],
    [
      'a note as a block',
      '::note[Text]',
      'error unknown-directive\n  The directive "::note" is not known.\n  Did you mean :::note?',
    ],
    [
      'a chart that shows nothing',
      '::chart',
      'error missing-attribute\n  "::chart" does not say which capture it shows.\n  Write capture="…" with the name of a capture of this log.',
    ],
    [
      'an attribute of a note',
      ':::note{colour="red"}\nText.\n:::',
      'error unknown-attribute\n  ":::note" has no attribute "colour".\n  It takes none.',
    ],
    [
      'a class of a note',
      ':::note{.wide}\nText.\n:::',
      'error unknown-attribute\n  ":::note" has no attribute "class".\n  It takes none.',
    ],
    [
      'a note that is not closed',
      ':::note\nText.\n\nMore text.',
      'error directive-open\n  ":::note" is not closed, so that everything after it belongs to it.\n  End it with a line of three colons.',
    ],
  ])('%s is told', async (_title, body, expected) => {
    const { problems } = await proseOf(`Text before.\n\n${body}\n`);
    expect(problems).toBe(`\nlogs/first/index.md:9:1 ${expected}\n`);
  });

  test('a text in brackets behind a chart is told, as it would not be shown', async () => {
    const { problems } = await proseOf('::summary[At one watt]{capture="tone"}\n');
    expect(problems).toContain(`
logs/first/index.md:7:1 error directive-label
  "::summary" takes no text in square brackets.
  Write the text as a sentence before or after it.
`);
  });
});

describe('raw HTML', () => {
  const refused = (place: string, tag: string) => `
logs/first/index.md:${place} error html-refused
  HTML such as "${tag}" is not published from prose.
  Use Markdown or a directive. Allowed without attributes: br, sub, sup, kbd, small, mark, del, ins, abbr, details, summary.`;

  test.each<[string, string, ...[string, string][]]>([
    ['a script', '<script>alert(1)</script>', ['7:1', '<script>']],
    ['a script in a line', 'Text <script>alert(1)</script>', ['7:6', '<script>']],
    ['a frame', '<iframe src="https://example.org"></iframe>', ['7:1', '<iframe src="https://example.org">']],
    ['an event handler', 'A <b onclick="x()">word</b>.', ['7:3', '<b onclick="x()">']],
    ['an event handler of an allowed element', 'H<sub onclick="x()">2</sub>', ['7:2', '<sub onclick="x()">']],
    ['an event handler over two lines', '<sub\nonclick="x()">2</sub>', ['7:1', '<sub …']],
    ['a picture', '<img src="a.png" onerror="x()">', ['7:1', '<img src="a.png" onerror="x()">']],
    ['a style', '<p style="color: red">Red</p>', ['7:1', '<p style="color: red">']],
    ['a style sheet', '<style>p { color: red }</style>', ['7:1', '<style>']],
    ['a link', 'A <a href="javascript:x()">link</a>', ['7:3', '<a href="javascript:x()">']],
    ['a form', '<form action="/"><input></form>', ['7:1', '<form action="/">'], ['7:18', '<input>']],
    ['a drawing', '<svg onload="x()"></svg>', ['7:1', '<svg onload="x()">']],
    ['a declaration', '<!DOCTYPE html>', ['7:1', '<!DOCTYPE html>']],
    ['a processing instruction', '<?php echo 1 ?>', ['7:1', '<?php echo 1 ?>']],
    ['a comment that is not closed', '<!-- open', ['7:1', '<!-- open']],
    ['a script behind an empty comment', '<!--><script>x()</script>-->', ['7:6', '<script>']],
    [
      'a script behind a comment closed in another way',
      '<!-- a --!><script>x()</script>',
      ['7:12', '<script>'],
    ],
    ['a script sewn together by a comment', '<!-- a --><s<!-- b -->cript>x()', ['7:11', '<s<!-- b -->']],
    [
      'the second tag of a block',
      '> <details>\n> <summary class="a">More</summary>\n> </details>',
      ['8:3', '<summary class="a">'],
    ],
  ])('%s is refused at its place', async (_title, body, ...expected) => {
    const { problems } = await proseOf(`${body}\n`);
    expect(problems).toBe(`${expected.map(([place, tag]) => refused(place, tag)).join('')}\n`);
  });

  test('a short list of elements without attributes is published', async () => {
    const { html, problems } = await proseOf(
      'H<sub>2</sub>O<br>and <kbd>C</kbd>\n\n<details>\n<summary>More</summary>\n\nInside.\n\n</details>\n',
    );
    expect(problems).toBe('\n\n');
    expect(html).toBe(
      '<p>H<sub>2</sub>O<br>and <kbd>C</kbd></p>\n<details>\n<summary>More</summary>\n<p>Inside.</p>\n</details>',
    );
  });

  test('comments are taken out', async () => {
    const body =
      '<!-- private -->\n\nText <!-- hidden --> goes on.\n\n<!--\nover\n\nlines\n-->\n\n<!----> <!-->\n';
    const { html, problems } = await proseOf(body);
    expect(problems).toBe('\n\n');
    expect(html).not.toMatch(/<!|private|hidden|over|lines/);
    expect(html).toContain('<p>Text  goes on.</p>');
  });
});

test('a wide table can be scrolled by itself, also with the keyboard', async () => {
  const { html } = await proseOf('| a |\n| --- |\n| b |\n');
  expect(html).toMatch(
    /^<div class="scroll" tabindex="0" role="\w+" aria-label="Table"><table>[\s\S]*<\/table><\/div>$/,
  );
});

test('a body nested thousands deep is refused, and nothing throws', async () => {
  const { problems } = await proseOf(`${'> '.repeat(3000)}deep\n`);
  expect(problems).toBe(`
logs/first/index.md:7:1 error text-depth
  Quotes, lists, notes or brackets stand in one another here more than 50 deep.
  Take some of them apart, or put a backslash before brackets that are text.
`);
});
