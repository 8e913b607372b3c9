import { type Files, toneCsv } from '../support/journal.ts';

/** A mark that a page would carry if any of the texts below ran. */
export const ran = 'window.hostile';

/** Texts that would run, load or end something where they are not written as text. */
const attacks: readonly string[] = [
  `<script>${ran}=1</script>`,
  `</script><script>${ran}=2</script>`,
  `"><img src=x onerror="${ran}=3">`,
  `' onmouseover='${ran}=4`,
  `</title><svg onload=${ran}=5>`,
  `]]><script>${ran}=6</script>`,
  `-->\u2028<script>${ran}=7</script>`,
  `\${${ran}=8} {{${ran}=8}} {${ran}=8}`,
  '<iframe src=https://outside.invalid/></iframe>',
  '<link rel=stylesheet href=https://outside.invalid/a.css>',
];

/** All attacks in one line of text. */
export const attack = attacks.join(' ').replaceAll('\u2028', '');

/** A text as YAML takes it. */
const yaml = (text: string) => JSON.stringify(text);
const attacked = (word: string) => yaml(`${word} ${attack}`);

/** A formula of a spreadsheet where texts of records reach a table. */
export const formula = '=HYPERLINK("https://outside.invalid","x")';

const prose = `
Code in fences and between backticks is text: \`<script>${ran}=9</script>\`

    <script>${ran}=10</script>

\`\`\`html
<script>${ran}=11</script>
\`\`\`

import fs from 'node:fs'

export const code = ${ran} = 12

{${ran} = 13}

## A heading with \\<script>${ran}=14\\</script> &lt;img src=x onerror=${ran}=15&gt;

[A title](https://example.org "\\" onmouseover=\\"${ran}=16") and <https://example.org/?a="onload=${ran}=17">

![An alt " onerror="${ran}=18](bench.png "A caption \\<script>${ran}=19\\</script> &quot;><svg onload=${ran}=20>")

| A \\<script>${ran}=21\\</script> | b |
| --- | --- |
| &lt;script&gt;${ran}=22&lt;/script&gt; | $\\text{<script>${ran}=23</script>}$ |

A note[^1] and a ratio of 3:1[<b>]{onclick="${ran}=24"}.

[^1]: &#60;script&#62;${ran}=25&#60;/script&#62;

:figure[thd]{of="tone"}

::chart{capture="tone" kind="excerpt"}

::summary{capture="tone"}
`.replaceAll('[<b>]', '[b]');

const png = Buffer.from(
  'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==',
  'base64',
);

const capture = toneCsv(['speaker']).replace(
  'speaker (V)',
  '"speaker <script>window.hostile=26</script> (V)"',
);

const claim = `{ says: ${attacked('Claim')}, figure: thd, of: logs/first/tone, against: 5 %, relation: lower }`;

/** A journal that passes every check and carries an attack in every place that takes a text of a person’s own. */
export const hostileJournal: Files = {
  'journal.yaml': [
    `title: ${attacked('Title')}`,
    `tagline: ${attacked('Tagline')}`,
    `author: ${attacked('Author')}`,
    `about: ${attacked('About')}`,
    'site: https://example.org',
    `safety: ${attacked('Safety')}`,
    'invented: true',
    `instruments: [ { id: scope, name: ${attacked('Scope')} } ]`,
    `openQuestions: [ ${attacked('Open')} ]`,
    '',
  ].join('\n'),
  'amplifiers/tern/index.md': `---\ntitle: ${attacked('Tern')}\npurpose: ${attacked('Purpose')}\nkind: tube\ntopology: ${attacked('Topology')}\n---\n${attackOfProse()}`,
  'amplifiers/tern/v1.md': `---\ntitle: ${attacked('Tern 1')}\ndate: 2026-01-10\nstate: current\nsummary: ${attacked('Summary')}\npartsFile: parts.csv\n---\n`,
  'amplifiers/tern/parts.csv': `part,value,quantity,price,supplier\n"${attack.replaceAll('"', '""')}",${yaml(formula).replaceAll('\\"', '""')},1,1.00 EUR,"javascript:${ran}=27"\n`,
  'parts/choke.md': `---\ntitle: ${attacked('Choke')}\nkind: device\n---\n`,
  'logs/first/index.md': `---\ntitle: ${attacked('First')}\ndate: 2026-01-18\namplifier: amplifiers/tern\nversion: amplifiers/tern/v1\nquestion: ${attacked('Question')}\nanswer: ${attacked('Answer')}\ntags: [ ${yaml('Tag <img src=x onerror=window.hostile=28>')} ]\ncaptures:\n  - { file: tone.csv, id: tone, title: ${attacked('Tone')}, why: ${attacked('Why')}, instrument: scope, alternative: ${attacked('Alternative')}, conditions: { ${attacked('name')}: ${attacked('value')} } }\nexpectations:\n  - ${claim}\nkeyFigures: [ { figure: thd, of: tone } ]\n---\n${prose}`,
  'logs/first/tone.csv': capture,
  'logs/first/bench.png': png,
  'decisions/0001-choke.md': `---\ntitle: ${attacked('Decision')}\ndate: 2026-02-15\namplifier: amplifiers/tern\nquestion: ${attacked('Which')}\nstate: decided\noptions: [ { id: one, title: ${attacked('One')}, note: ${attacked('Note')} }, { id: two, title: Two } ]\nchosen: one\nevidence:\n  - ${claim}\ndecision: ${attacked('Decided')}\nconsequences: [ ${attacked('Consequence')} ]\n---\n`,
};

function attackOfProse(): string {
  return `\nWritten with backslashes: ${attack.replaceAll(/[<>{}[\]$`:"']/g, '\\$&')}\n`;
}
