import type { Element, Root } from 'hast';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { proseMessages } from './messages.ts';
import { report } from './report.ts';

/** Turns formulas that could not be set into faults; the setter itself only colours them red. */
export function katexFaults() {
  return (tree: Root, file: VFile): void => {
    for (const message of file.messages.filter(({ source }) => source === 'rehype-katex')) {
      const detail = message.cause instanceof Error ? message.cause.message : message.reason;
      const { line = 1, column = 1 } = message;
      report(file, { position: { start: { line, column } } }, proseMessages.badMaths(detail));
    }
    visit(tree, 'element', (element: Element) => {
      if (isRefusedCommand(element))
        report(file, element, proseMessages.badMaths('a command in it is not allowed.'));
    });
  };
}

/** Commands that need trust do not raise an error: they are set in this colour instead. */
function isRefusedCommand(element: Element): boolean {
  return element.tagName === 'mstyle' && element.properties['mathcolor'] === '#cc0000';
}
