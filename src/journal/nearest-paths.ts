import { nearestNames } from '../problem/index.ts';

/**
 * Paths close to a misspelt one, at most three, best first: of the same depth, and each part equal or close.
 * A shared folder does not make two names alike.
 */
export function nearestPaths(written: string, paths: Iterable<string>): string[] {
  const parts = written.split('/');
  const near = [...paths].filter((path) => isNear(parts, path.split('/')));
  const byName = nearestNames(lastPart(written), near.map(lastPart), near.length);
  const rank = (path: string) => [differing(parts, path), byName.indexOf(lastPart(path))] as const;
  return near.sort((a, b) => rank(a)[0] - rank(b)[0] || rank(a)[1] - rank(b)[1]).slice(0, 3);
}

function isNear(parts: readonly string[], others: readonly string[]): boolean {
  return (
    parts.length === others.length &&
    parts.every((part, index) => nearestNames(part, [others[index] ?? '']).length > 0)
  );
}

const lastPart = (path: string) => path.slice(path.lastIndexOf('/') + 1);
const differing = (parts: readonly string[], path: string) =>
  path.split('/').filter((part, index) => part !== parts[index]).length;
