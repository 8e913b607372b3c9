import path from 'node:path';

/** What a journal's site is made in: its own caches, content store and unfinished pages. */
export function workFolder({ folder }: { folder: string }): string {
  return path.join(folder, '.quiescent');
}
