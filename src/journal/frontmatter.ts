import matter from 'gray-matter';
import { type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import { readYaml, type YamlReading } from './yaml.ts';

/** A Markdown file taken apart: what stands in its frontmatter, and its body with the line it begins at. */
export interface MarkdownFile {
  frontmatter: YamlReading;
  body: string;
  /** Line of the file on which the body begins, counted from 1. */
  bodyLine: number;
}

const fencePattern = /^---[ \t]*(\S*)/;

/**
 * Splits a Markdown file into frontmatter and body. Only YAML is accepted: a language word behind the fence
 * is refused and every other engine of the splitter is switched off, so that no frontmatter runs as code.
 */
export function splitMarkdown(
  source: string,
  file: string,
): { parts: MarkdownFile | null; problems: Problem[] } {
  const text = source.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n');
  const fence = fencePattern.exec(text);
  if (!fence) return refuse(file, 1, messages.frontmatterMissing());
  if (fence[1]) return refuse(file, 4, messages.frontmatterLanguage(fence[1]));
  if (!/\n---[ \t]*(\n|$)/.test(text)) return refuse(file, 1, messages.frontmatterOpen());
  const split = matter(text, { language: 'yaml', engines });
  const frontmatter = readYaml(split.matter, file, 4);
  const before = text.slice(0, text.length - split.content.length);
  return {
    parts: { frontmatter, body: split.content, bodyLine: before.split('\n').length },
    problems: frontmatter.problems,
  };
}

const refuse = (file: string, column: number, fault: Parameters<typeof problemAt>[1]) => ({
  parts: null,
  problems: [problemAt({ file, line: 1, column }, fault)],
});

const refused = {
  parse(): object {
    throw new Error('Frontmatter in a script language is not run.');
  },
};

/** YAML is read with positions afterwards, so the splitter's own engine has nothing to do. */
const engines = {
  yaml: { parse: () => ({}) },
  javascript: refused,
  js: refused,
  coffee: refused,
  json: refused,
};
