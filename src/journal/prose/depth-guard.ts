import type { Node, Parent } from 'unist';
import type { VFile } from 'vfile';
import { messages } from '../messages.ts';
import { report } from './report.ts';

/** Quotes, lists and emphasis in one another: far more than a text has, far fewer than exhaust what renders it. */
const mostNested = 100;

/** Takes a text out that is nested too deeply to be rendered, and tells where. */
export function depthGuard() {
  return (tree: Parent, file: VFile): void => {
    const deep = deeperThan(mostNested, tree);
    if (!deep) return;
    report(file, deep, messages.tooDeep());
    tree.children = [];
  };
}

/** The first node that stands deeper than a limit, found level by level. */
function deeperThan(most: number, tree: Node): Node | null {
  let level: Node[] = [tree];
  for (let depth = 0; depth < most; depth++) {
    level = level.flatMap((node) => ('children' in node ? (node as Parent).children : []));
    if (level.length === 0) return null;
  }
  return level[0] ?? null;
}
