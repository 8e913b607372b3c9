import { createHash } from 'node:crypto';

/** SHA-256 of bytes, or of a text in UTF-8, in lower-case hexadecimal. */
export function sha256Of(content: Uint8Array | string): string {
  return createHash('sha256').update(content).digest('hex');
}
