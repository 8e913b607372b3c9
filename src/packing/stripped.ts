import { stripTypeScriptTypes } from 'node:module';

/**
 * One source file as Node runs it from an installed package, where it takes no TypeScript: without types, and with
 * imports that name the files so made. Types leave blanks behind, so that every line and column stays.
 */
export function withoutTypes(source: string): string {
  return withNewImports(stripTypeScriptTypes(source, { mode: 'strip' }));
}

/** A text in which every import of a TypeScript file beside it names the file made from that. */
export function withNewImports(source: string): string {
  return source.replaceAll(
    /((?:from|import)\s*\(?\s*)(['"])(\.{1,2}\/[^'"\n?]+)\.ts(\?[^'"\n]*)?\2/g,
    '$1$2$3.js$4$2',
  );
}
