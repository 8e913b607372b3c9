import matter from 'gray-matter';
import { type Fault, type Problem, problemAt } from '../problem/index.ts';
import { messages } from './messages.ts';
import { readYaml, type YamlReading } from './yaml.ts';

/** A Markdown file taken apart: what stands in its frontmatter, and its body with the line it begins at. */
export interface MarkdownFile {
  frontmatter: YamlReading;
  body: string;
  /** Line of the file on which the body begins, counted from 1. */
  bodyLine: number;
}

const opening = /^---[ \t]*(?!-)(\S*)/;
const closing = /^\n?---[ \t]*(?:\n|$)/;

/**
 * Splits a Markdown file into frontmatter and body. Only YAML is accepted: a language word behind the fence is
 * refused and every engine of the splitter is switched off, so that no frontmatter runs as code; YAML is read
 * afterwards, with the place of every key.
 */
export function splitMarkdown(
  source: string,
  file: string,
): { parts: MarkdownFile | null; problems: Problem[] } {
  const text = source.replace(/^\uFEFF/, '').replaceAll(/\r\n?/g, '\n');
  const fence = opening.exec(text);
  if (!fence) return refuse(file, 1, noFence(text));
  const [fenceText, language] = fence;
  if (language)
    return refuse(file, fenceText.length - language.length + 1, messages.frontmatterLanguage(language));
  const split = matter(text, { language: 'yaml', engines });
  const keys = split.matter.replace(/^[ \t]*\n/, '');
  const behind = text.slice(fenceText.length + 1 + keys.length);
  if (!closing.test(behind)) return refuse(file, 1, messages.frontmatterOpen());
  const body = split.content.replace(/^[ \t]+\n/, '');
  const frontmatter = readYaml(keys, file, 2);
  const bodyLine = text.slice(0, text.length - body.length).split('\n').length;
  return { parts: { frontmatter, body, bodyLine }, problems: frontmatter.problems };
}

const noFence = (text: string) =>
  text.startsWith('+++') ? messages.frontmatterToml() : messages.frontmatterMissing();

const off = {
  parse: () => ({}),
};

/** No engine of the splitter reads anything. */
const engines = { yaml: off, javascript: off, js: off, coffee: off, json: off };

const refuse = (file: string, column: number, fault: Fault) => ({
  parts: null,
  problems: [problemAt({ file, line: 1, column }, fault)],
});
