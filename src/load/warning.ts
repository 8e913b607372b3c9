import type { LoadFault } from './types.ts';

/** A fault that stops nothing. */
export const warning = (path: LoadFault['path'], rule: string, message: string, hint: string): LoadFault => ({
  rule,
  severity: 'warning',
  message,
  hint,
  path,
});
