import type { Root } from 'mdast';
import { visit } from 'unist-util-visit';

/** Languages whose code is coloured. */
const languages: readonly string[] = (
  'bash sh shell c cpp css diff ini toml js javascript json ts typescript html xml svg python py sql tex yaml yml ' +
  'markdown md math shell-session csv nginx apacheconf http'
).split(' ');

/**
 * A text with a block of each language. Rendered first, it brings in all of them, as code within code is coloured only
 * where its language is known by then, and a page must not depend on the pages before it.
 */
export const everyLanguage = languages
  .filter((language) => language !== 'math')
  .map((language) => `\`\`\`${language}\n\n\`\`\`\n`)
  .join('\n');

const mostCharacters = 20_000;
const mostInLine = 1000;

/** Leaves code without colours that is in another language, or so long that finding them would take long. */
export function codeColours() {
  return (tree: Root): void => {
    visit(tree, 'code', (node) => {
      const isKnown = languages.includes(node.lang ?? '');
      const isLong = node.value.length > mostCharacters;
      if (!isKnown || isLong || node.value.split('\n').some((line) => line.length > mostInLine))
        node.lang = null;
    });
  };
}
