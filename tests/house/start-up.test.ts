import { readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import ts from 'typescript';
import { expect, test } from 'vitest';

/** Files of the project that a file loads when it runs; imports of types alone load nothing. */
function loadedBy(file: string): string[] {
  const source = ts.createSourceFile(file, readFileSync(file, 'utf8'), ts.ScriptTarget.Latest);
  return source.statements.flatMap((statement) => {
    const typesAlone =
      (ts.isImportDeclaration(statement) &&
        statement.importClause?.phaseModifier === ts.SyntaxKind.TypeKeyword) ||
      (ts.isExportDeclaration(statement) && statement.isTypeOnly);
    const isLink = ts.isImportDeclaration(statement) || ts.isExportDeclaration(statement);
    if (!isLink || typesAlone || !statement.moduleSpecifier) return [];
    const from = (statement.moduleSpecifier as ts.StringLiteral).text;
    return from.startsWith('.') ? [join(dirname(file), from)] : [];
  });
}

function everythingBehind(file: string, seen = new Set<string>()): Set<string> {
  if (seen.has(file)) return seen;
  seen.add(file);
  for (const next of loadedBy(file)) everythingBehind(next, seen);
  return seen;
}

test('reading a capture loads nothing of the load room, and nothing that compares or draws', () => {
  const loaded = [...everythingBehind('src/cli/commands/inspect.ts')];
  expect(loaded).toContain('src/signal/index.ts');
  expect(loaded.filter((file) => /^src\/(load|charts|overlay|compare)\//.test(file))).toEqual([]);
});
