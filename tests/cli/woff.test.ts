import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, test } from 'vitest';
import { fontOfWoff } from '../../src/cli/woff.ts';

const { resolve } = createRequire(import.meta.url);
const fileOf = (name: string) => readFileSync(resolve(`@fontsource/ibm-plex-sans/files/${name}.woff`));

/** Sum of a table's 32-bit words. @source OpenType 1.9, "Calculating checksums" */
function sumOf(table: Buffer): number {
  const padded = Buffer.concat([table, Buffer.alloc(-table.length & 3)]);
  let sum = 0;
  for (let at = 0; at < padded.length; at += 4) sum = (sum + padded.readUInt32BE(at)) >>> 0;
  return sum;
}

function tablesOf(font: Buffer) {
  return Array.from({ length: font.readUInt16BE(4) }, (_, index) => {
    const at = 12 + 16 * index;
    const [checksum, offset, length] = [4, 8, 12].map((place) => font.readUInt32BE(at + place));
    const data = Buffer.from(font.subarray(offset, (offset ?? 0) + (length ?? 0)));
    return { tag: font.toString('latin1', at, at + 4), checksum, offset: offset ?? 0, data };
  });
}

test.each(['ibm-plex-sans-latin-400-normal', 'ibm-plex-sans-greek-600-normal'])(
  'the tables of %s come out whole, each with the checksum that OpenType asks for',
  (name) => {
    const tables = tablesOf(fontOfWoff(fileOf(name)));
    expect(tables.map(({ tag }) => tag)).toEqual(
      expect.arrayContaining(['cmap', 'glyf', 'head', 'hmtx', 'name']),
    );
    for (const { tag, checksum, offset, data } of tables) {
      // The whole font's own sum stands at byte 8 of this table and does not count.
      if (tag === 'head') data.writeUInt32BE(0, 8);
      expect(offset % 4, tag).toBe(0);
      expect(sumOf(data), tag).toBe(checksum);
    }
  },
);

test('a font has the length that the WOFF file states for it', () => {
  const woff = fileOf('ibm-plex-sans-latin-400-normal');
  // W3C WOFF 1.0, section 3: totalSfntSize at byte 16.
  expect(fontOfWoff(woff)).toHaveLength(woff.readUInt32BE(16));
});
