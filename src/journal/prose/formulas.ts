import katex from 'katex';
import type { Code, Root } from 'mdast';
import type { Math as DisplayMath, InlineMath } from 'mdast-util-math';
import { visit } from 'unist-util-visit';
import type { VFile } from 'vfile';
import { proseMessages } from './messages.ts';
import { report, within } from './report.ts';

/** Letters that TeX does not have, such as the ohm in a text, are no trouble to MathML. */
const harmless = ['unknownSymbol', 'unicodeTextInMathMode'];

/** Longest formula that is set. */
const mostCharacters = 4000;

/** How formulas are set: as MathML, without style sheet or fonts of its own. */
export const formulaOptions = {
  output: 'mathml',
  strict: (code: string) => (harmless.includes(code) ? 'ignore' : 'error'),
  maxSize: 20,
} as const;

/** Refuses formulas that cannot be set, at the place in the formula; the setter would only colour them red. */
export function formulas() {
  return (tree: Root, file: VFile): void => {
    visit(tree, 'inlineMath', (node) => check(node, file, { displayMode: false, skippedLines: 0 }));
    visit(tree, 'math', (node) => check(node, file, { displayMode: true, skippedLines: 1 }));
    visit(tree, 'code', (node) => {
      if (node.lang === 'math') check(node, file, { displayMode: true, skippedLines: 1 });
    });
  };
}

function check(
  node: InlineMath | DisplayMath | Code,
  file: VFile,
  { displayMode, skippedLines }: { displayMode: boolean; skippedLines: number },
): void {
  const fault = faultOf(node.value, displayMode);
  if (!fault) return;
  const place = within(file, node, { value: node.value, offset: fault.offset, skippedLines });
  report(file, place, proseMessages.badMaths(fault.detail));
}

/** What keeps a formula from being set, with its offset; commands that need trust are refused by name. */
function faultOf(value: string, displayMode: boolean): { detail: string; offset: number } | null {
  if (value.length > mostCharacters)
    return { detail: `It has more than ${mostCharacters} characters`, offset: 0 };
  const refused: string[] = [];
  const trust = ({ command }: { command: string }) => {
    refused.push(command);
    return false;
  };
  try {
    katex.renderToString(value, { ...formulaOptions, displayMode, trust, throwOnError: true });
  } catch (error) {
    if (!(error instanceof katex.ParseError)) return { detail: String(error), offset: 0 };
    return { detail: plain(error.rawMessage), offset: error.position ?? 0 };
  }
  const [command] = refused;
  if (command === undefined) return null;
  return { detail: `The command ${command} is not allowed`, offset: Math.max(0, value.indexOf(command)) };
}

/** The setter's sentence without the name of its setting and the code of its rule. */
const plain = (message: string) =>
  message
    .replace(/^LaTeX-incompatible input and strict mode is set to 'error': /, '')
    .replace(/ \[\w+\]$/, '');
