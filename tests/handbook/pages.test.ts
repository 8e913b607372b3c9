import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { dateOf } from '../../src/cli/new-files.ts';
import { schemaOf } from '../../src/journal/schemas/index.ts';
import { validate } from '../../src/journal/validate.ts';
import { readYaml } from '../../src/journal/yaml.ts';
import { type Bench, day, newBench } from './bench.ts';
import { type Block, blocksOf, commandsOf, missingLine } from './blocks.ts';

const folder = 'shared/handbook/pages';
const written = readdirSync(folder).filter((file) => !file.startsWith('reference-'));
const read = (file: string) => readFileSync(join(folder, file), 'utf8');

/** Languages of blocks that show what another program reads; other tests hold what they say. */
const elsewhere = ['nginx', 'apacheconf'];

const today = (text: string) => text.replaceAll(day, dateOf(new Date()));

/** Types what a console block shows, and holds its answers against those given. */
async function type({ text }: Block, bench: Bench): Promise<void> {
  for (const { command, answer } of commandsOf(text)) {
    const goesOn = /^npx quiescent (dev|preview)\b/.test(command);
    const last = answer.findLast((line) => line !== '…') ?? 'http://127.0.0.1:4321';
    const answered = goesOn ? await bench.runUntil(today(command), last) : await bench.run(today(command));
    expect(missingLine(answer.map(today), answered), `${command}\n${answered}`).toBeNull();
  }
}

function save({ told, text, before }: Block, bench: Bench): void {
  const file = told.slice('file='.length);
  expect(before, 'the sentence ahead names the file').toContain(`\`${file}\``);
  const place = join(bench.folder(), today(file));
  mkdirSync(dirname(place), { recursive: true });
  writeFileSync(place, today(text));
}

/** A part of a record fits the schema of its kind, but for keys that it leaves out. */
function fits({ told, text }: Block): void {
  const kind = told.slice('record='.length) as keyof typeof schemaOf;
  const { problems } = validate(schemaOf[kind], readYaml(text, 'part'));
  const wrong = problems.filter(({ rule, line, column }) => rule !== 'missing-key' || line + column > 2);
  expect(wrong).toEqual([]);
}

async function follow(block: Block, bench: Bench): Promise<void> {
  if (block.language === 'shell-session') await type(block, bench);
  else if (block.told.startsWith('file=')) save(block, bench);
  else if (block.told.startsWith('record=')) fits(block);
  else expect(elsewhere, `line ${block.line} says neither file= nor record=`).toContain(block.language);
}

const tutorial = 'from-an-empty-folder.md';

/** Commands that build and serve take their time where much else runs. */
const patient = { timeout: 300_000 };

describe('what a page of the handbook shows is so', patient, () => {
  test.each(written.filter((file) => file !== tutorial))('%s', async (file) => {
    const bench = newBench();
    for (const block of blocksOf(read(file))) await follow(block, bench);
  });
});

test(
  'the tutorial comes out as it shows, with a published page of the reader’s own capture',
  patient,
  async () => {
    const bench = newBench();
    for (const block of blocksOf(read(tutorial))) await follow(block, bench);
    const page = today('public_html/logs/2026-03-01-the-first-sound/index.html');
    const html = readFileSync(join(bench.folder(), page), 'utf8');
    expect(html).toContain('<h1>The first sound</h1>');
    expect(html).toContain('class="safety-notice"');
    expect(html).toMatch(/<svg[^>]*>/);
  },
);
