import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, inject, test } from 'vitest';

const htmlOf = (page: string) => readFileSync(join(inject('site'), page, 'index.html'), 'utf8');
const plain = (page: string) => htmlOf(page).replaceAll('\u00a0', ' ').replaceAll('&nbsp;', ' ');

test('a transistor stage shows its heat, its temperatures and both charts', () => {
  const [, sheet = ''] = plain('amplifiers/slate/v2').split('id="output"');
  for (const heading of [
    'Where a transistor is hottest',
    'Temperatures',
    'Largest sine',
    'At the stated power',
  ]) {
    expect(sheet).toContain(heading);
  }
  expect(sheet).toContain('A transistor dissipates most, 4.1 W, at 7 W of output');
  expect(sheet).toMatch(/At 8 Ω a transistor dissipates up to 4\.1 W with a resistor and 5\.6 W at 45°/);
  expect(sheet).toContain('/methods/#thermal-path');
});

test('two versions of a transistor amplifier are compared by heat', () => {
  const [, changes = ''] = plain('amplifiers/slate/v2').split('id="changes"');
  for (const what of [
    'output, heat at rest, all transistors',
    'output, sink at the worst output',
    'output, class A up to',
  ]) {
    expect(changes).toContain(what);
  }
});

test('the list of versions has the power of a transistor stage', () => {
  expect(htmlOf('amplifiers/slate')).toMatch(/14\.7/);
});
