import { createHash } from 'node:crypto';

/** Names the form; a change of the form takes another. */
const mark = Buffer.from('QRS1');
const checksumBytes = 16;
const headBytes = mark.length + 8 + checksumBytes;

/** Bytes with a head that tells whether they are whole: mark, length and checksum. */
export function framed(content: Uint8Array): Uint8Array {
  const length = Buffer.alloc(8);
  length.writeBigUInt64LE(BigInt(content.length));
  return Buffer.concat([mark, length, checksumOf(content), content]);
}

/** What `framed` was given; null for bytes that are cut short, damaged or foreign. */
export function unframed(bytes: Uint8Array): Uint8Array | null {
  const head = Buffer.from(bytes.buffer, bytes.byteOffset, Math.min(bytes.length, headBytes));
  const content = bytes.subarray(headBytes);
  if (head.length < headBytes || !head.subarray(0, mark.length).equals(mark)) return null;
  if (head.readBigUInt64LE(mark.length) !== BigInt(content.length)) return null;
  return head.subarray(mark.length + 8).equals(checksumOf(content)) ? content : null;
}

const checksumOf = (content: Uint8Array): Buffer =>
  createHash('sha256').update(content).digest().subarray(0, checksumBytes);
