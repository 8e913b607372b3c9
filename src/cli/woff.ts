import { inflateSync } from 'node:zlib';

interface FontTable {
  tag: number;
  checksum: number;
  data: Uint8Array;
}

const woffHeader = 44;
const woffEntry = 20;
const fontHeader = 12;
const fontEntry = 16;

/**
 * The font inside a WOFF file of version 1: the same tables, not compressed, behind the directory of a font file.
 * @source W3C Recommendation WOFF File Format 1.0 (2012), sections 3 to 5; OpenType 1.9, organization of a font file
 */
export function fontOfWoff(woff: Buffer): Buffer {
  const count = woff.readUInt16BE(12);
  const tables = Array.from({ length: count }, (_, index) => tableAt(woff, woffHeader + index * woffEntry));
  const directory = Buffer.alloc(fontHeader + count * fontEntry);
  const power = 2 ** Math.floor(Math.log2(count));
  directory.writeUInt32BE(woff.readUInt32BE(4), 0);
  directory.writeUInt16BE(count, 4);
  directory.writeUInt16BE(power * fontEntry, 6);
  directory.writeUInt16BE(Math.log2(power), 8);
  directory.writeUInt16BE((count - power) * fontEntry, 10);
  const parts: Uint8Array[] = [directory];
  let offset = directory.length;
  for (const [index, { tag, checksum, data }] of tables.entries()) {
    const at = fontHeader + index * fontEntry;
    for (const [place, value] of [tag, checksum, offset, data.length].entries())
      directory.writeUInt32BE(value, at + 4 * place);
    const padding = new Uint8Array(-data.length & 3);
    parts.push(data, padding);
    offset += data.length + padding.length;
  }
  return Buffer.concat(parts);
}

/** One table; it is compressed where that makes it shorter. */
function tableAt(woff: Buffer, at: number): FontTable {
  const [tag, offset, stored, length, checksum] = [0, 4, 8, 12, 16].map((place) =>
    woff.readUInt32BE(at + place),
  );
  const packed = woff.subarray(offset, (offset ?? 0) + (stored ?? 0));
  const data = (stored ?? 0) < (length ?? 0) ? inflateSync(packed) : packed;
  return { tag: tag ?? 0, checksum: checksum ?? 0, data };
}
