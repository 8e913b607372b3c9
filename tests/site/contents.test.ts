import { expect, test } from 'vitest';
import { sectionsOf, withAddresses } from '../../src/site/contents.ts';

const page = `<section class="wide"><h2 id="output" data-kind="tube">Output <a href="/x/">stage</a></h2>
<h3 id="rest">At
  rest</h3><p>Text</p></section><h2>No address</h2><h2 class="quiet" id="hum-noise">Hum &amp; noise</h2>
<h2 id="played" class="needs-script">Played</h2>`;

test('the sections of a page are its second-level headings with an address, as text', () => {
  expect(sectionsOf(page)).toEqual([
    { id: 'output', text: 'Output stage', needsScript: false },
    { id: 'hum-noise', text: 'Hum &amp; noise', needsScript: false },
    { id: 'played', text: 'Played', needsScript: true },
  ]);
  expect(sectionsOf('<p>No heading</p>')).toEqual([]);
});

test('each heading with an address links to itself, and nothing else changes', () => {
  const linked = withAddresses(page);
  const links = [
    ...linked.matchAll(/<a class="address" href="#([^"]+)" aria-hidden="true" tabindex="-1">#<\/a>/g),
  ];
  expect(links.map(([, id]) => id)).toEqual(['output', 'rest', 'hum-noise', 'played']);
  expect(links.reduce((html, [link]) => html.replace(link, ''), linked)).toBe(page);
});
