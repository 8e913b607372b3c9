import { describe, expect, test } from 'vitest';
import { withNewImports, withoutTypes } from '../../src/packing/stripped.ts';

describe('a source file becomes what an installed package runs', () => {
  test('without types, every line where it was', () => {
    const source = `import { a, type B } from './a.ts';\nexport const c = (b: B): number => a(b);\n`;
    const lines = withoutTypes(source).split('\n');
    expect(lines[0]).toMatch(/^import \{ a,\s+\} from '\.\/a\.js';$/);
    expect(lines[1]?.replaceAll(/\s+/g, ' ')).toBe('export const c = (b ) => a(b);');
  });

  test.each([
    ["import x from '../a/b.ts';", "import x from '../a/b.js';"],
    ["export * from './b.ts';", "export * from './b.js';"],
    ['import "./b.ts";', 'import "./b.js";'],
    ["await import('./b.ts')", "await import('./b.js')"],
    ["import type { B } from './b.ts';", "import type { B } from './b.js';"],
    ["import url from './b.ts?worker&url';", "import url from './b.js?worker&url';"],
    ["import data from './b.json';", "import data from './b.json';"],
    ["import x from 'other/b.ts';", "import x from 'other/b.ts';"],
    ["const name = './b.ts';", "const name = './b.ts';"],
  ])('%s becomes %s', (source, made) => {
    expect(withNewImports(source)).toBe(made);
  });
});
