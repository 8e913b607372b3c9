import path from 'node:path';
import { reasonOf } from '../journal/index.ts';

/** The first line of the reason for a failure, as a sentence, with paths as the journal in a folder names them. */
export function firstReason(error: unknown, folder: string): string {
  const [reason = ''] = reasonOf(error).split('\n');
  return reason.replaceAll(`${folder}${path.sep}`, '').replace(/\.?$/, '.');
}
