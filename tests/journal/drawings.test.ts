import { describe, expect, test } from 'vitest';
import { drawingFault } from '../../src/journal/publishing/drawing-guard.ts';
import { problemsOf, settings } from '../support/journal.ts';

const drawing = (inner: string, attributes = '') =>
  `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 4 3"${attributes}>${inner}</svg>`;

describe('a drawing is refused', () => {
  test.each([
    ['a script', drawing('<script>x()</script>')],
    ['a script of another prefix', drawing('<s:script xmlns:s="http://www.w3.org/2000/svg">x()</s:script>')],
    ['a script in capitals', drawing('<SCRIPT href="#a"/>')],
    ['a foreign object', drawing('<foreignObject><p>Text</p></foreignObject>')],
    ['a frame', drawing('<h:iframe xmlns:h="http://www.w3.org/1999/xhtml"/>')],
    ['an event handler', drawing('', ' onload="x()"')],
    ['an event handler in capitals', drawing("<rect ONCLICK = 'x()'/>")],
    ['a link that runs code', drawing('<a href="javascript:x()"><path d=""/></a>')],
    ['a link that runs code in disguise', drawing('<a xlink:href="&#106;avascript:x()"/>')],
    ['a link out of it', drawing('<a href="https://example.org"/>')],
    ['a picture from elsewhere', drawing('<image href="https://example.org/a.png"/>')],
    ['a drawing within it', drawing('<image href="data:image/svg+xml;base64,AAAA"/>')],
    ['a page within it', drawing('<use href="data:text/html,x"/>')],
    ['parts of another drawing', drawing('<use xlink:href="other.svg#a"/>')],
    ['an animated link', drawing('<a><set attributeName="xlink:href" to="javascript:x()"/></a>')],
    ['an animated handler', drawing('<animate attributeName="onclick" values="x()"/>')],
    ['an imported style', drawing('<style>@import "https://example.org/a.css";</style>')],
    ['an address in a style', drawing('<style>rect { fill: url(https://example.org/a) }</style>')],
    ['an address in a style in disguise', drawing('<style>rect { fill: u&#114;l(//example.org/a) }</style>')],
    ['an escaped address in a style', drawing('<style>rect { fill: \\75 rl(//example.org/a) }</style>')],
    [
      'an address in characters of a style',
      drawing('<style><![CDATA[a { fill: url(//example.org) }]]></style>'),
    ],
    ['an address in an attribute', drawing('<rect fill="url( \'https://example.org/a\' )"/>')],
    ['an entity', `<!DOCTYPE svg [<!ENTITY a "<script>x()</script>">]>${drawing('&a;')}`],
    ['a style sheet', `<?xml-stylesheet href="a.css"?>${drawing('')}`],
    ['another encoding', `<?xml version="1.0" encoding="utf-7"?>${drawing('')}`],
    ['an attribute without quotes', drawing('<rect width=4/>')],
    ['a tag that is not closed', drawing('<rect ')],
    ['a comment that is not closed', drawing('<!-- ')],
  ])('with %s', (_title, text) => {
    expect(drawingFault(text)?.fault.rule).toBe('drawing-refused');
  });
});

describe('a drawing is published', () => {
  test.each([
    ['shapes and text', drawing('<path d="M0 0h4"/><text x="1">R3 &lt; 4k7: C:\\x, url(x)</text>')],
    [
      'what editors write into it',
      drawing(
        '<metadata><rdf:RDF><cc:Work rdf:about=""/></rdf:RDF></metadata>',
        ' inkscape:export-filename="C:\\a.png"',
      ),
    ],
    ['places within it', drawing('<use href="#a"/><rect fill="url(#b)" style="fill:url(&quot;#c&quot;)"/>')],
    ['a picture written out', drawing('<image xlink:href="data:image/png;base64,iVBORw0KGgo="/>')],
    [
      'a style of its own',
      drawing('<style type="text/css"><![CDATA[.a { fill: none; content: "\\2014" }]]></style>'),
    ],
    [
      'a declaration and a comment',
      `<?xml version="1.0" encoding="UTF-8"?>\n<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">\n<!-- <script> -->${drawing('')}`,
    ],
    ['a movement', drawing('<rect><animate attributeName="x" to="3"/></rect>')],
  ])('with %s', (_title, text) => {
    expect(drawingFault(text)).toBeNull();
  });
});

test('what is refused is told at its place in the drawing, also where no record shows it', async () => {
  const text = drawing('\n  <rect width="4"\n    onclick="x()"/>\n');
  expect(await problemsOf({ 'static/plan.svg': text })).toBe(`
static/plan.svg:3:5 error drawing-refused
  "onclick" would run code or change where a link leads, and no drawing of a journal does.
  Remove the attribute.
`);
});

test('a fixed drawing is not looked into where the journal allows code', async () => {
  const files = {
    'journal.yaml': `${settings}mdx: true\n`,
    'static/plan.svg': drawing('<script>x()</script>'),
  };
  expect(await problemsOf(files)).toBe('\n\n');
});

test('a drawing of many marks is looked through quickly', () => {
  expect(drawingFault(drawing('<a "'.repeat(200_000)))?.fault.rule).toBe('drawing-refused');
  expect(drawingFault(drawing('<g>'.repeat(200_000)))).toBeNull();
});
