import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';

const root = join(import.meta.dirname, '../..');

const files = (...patterns: string[]) => globSync(patterns, { cwd: root }).sort();
const textOf = (file: string) => readFileSync(join(root, file), 'utf8');

/** The texts in a TypeScript file: what stands in quotes, and the fixed parts of templates. */
function stringsOf(source: string): string[] {
  const found: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node)) {
      found.push(node.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile('file.ts', source, ts.ScriptTarget.Latest));
  return found;
}

/** The word says "large" to a reader and "not by chance" to a statistician; verdicts have words of their own. */
const word = /significan(t|ce)/i;

test('the texts in a file are found, and names in its code are not', () => {
  const found = stringsOf(`const significant = (x) => \`a \${significant(x)} b\` + 'c';`);
  expect(found).toEqual(['a ', ' b', 'c']);
});

test('no text that is printed calls a difference significant', () => {
  const sources = files('src/**/*.ts');
  expect(sources.length).toBeGreaterThan(100);
  const inCode = sources.filter((file) => stringsOf(textOf(file)).some((text) => word.test(text)));
  const prose = files(
    'components/**/*.astro',
    'src/pages/**/*.astro',
    'content/**/*.{md,mdx}',
    'content/journal.yaml',
    'README.md',
  );
  expect(prose.length).toBeGreaterThan(30);
  expect([...inCode, ...prose.filter((file) => word.test(textOf(file)))]).toEqual([]);
});
