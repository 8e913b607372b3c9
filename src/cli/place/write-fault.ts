import { shownPath } from '../paths.ts';

/** What keeps a system from writing, and what mends it. */
const reasons: Readonly<Record<string, string>> = {
  ENOSPC: 'there is no space left on its disk. Free some.',
  EDQUOT: 'your share of its disk is used up. Free some.',
  EFBIG: 'the file would be larger than the system allows this program. Raise that limit (ulimit -f).',
  EACCES: 'permission is denied. Allow writing there, or name another folder.',
  EPERM: 'the system does not permit it. Allow writing there, or name another folder.',
  EROFS: 'its disk can only be read. Name a folder on another.',
  EBUSY: 'it is in use, or a disk is mounted there. Name a folder inside it.',
  ENOTDIR: 'a part of its path is a file. Name another folder.',
  EMFILE: 'too many files are open. Raise that limit (ulimit -n).',
};

/** Something could not be written, in words for the person who asked for it. */
export class WriteFault extends Error {}

/**
 * Says where something could not be written and how to mend it; null for a failure of another kind. `fallback` is
 * named where the system does not say which file it was.
 */
export function writeFault(error: unknown, fallback: string): string | null {
  const { code = '', path = fallback, dest = path } = systemFailure(error);
  const reason = reasons[code];
  return reason ? `${shownPath(dest)} cannot be written: ${reason}` : null;
}

interface Failure {
  code?: string;
  path?: string;
  /** Where a copy was to go. */
  dest?: string;
  cause?: unknown;
  errors?: unknown[];
}

/** The system's own failure, which others wrap. */
function systemFailure(error: unknown): Failure {
  const failure = (error ?? {}) as Failure;
  const inner = failure.errors?.[0] ?? failure.cause;
  return Object.hasOwn(reasons, failure.code ?? '') || inner === undefined ? failure : systemFailure(inner);
}
