import { type LoggerInterface, parse, type Runtime, View } from 'vega';
import { compile } from 'vega-lite';
import type { Row } from './assemble.ts';
import { hash } from './hash.ts';
import { placeholder, renumberClips } from './svg/ids.ts';
import { tidy } from './svg/tidy.ts';
import { escapeText, readSvg, type SvgElement, writeSvg } from './svg/tree.ts';
import { chartFont, fontSize } from './theme.ts';
import type { ChartSpec, ChartText, Drawable, Drawing } from './types.ts';

const mostKept = 64;

/** Parsed specs by everything in them but their data, so that charts of one kind and axes share the work. */
const parsed = new Map<string, Runtime>();

/** Draws a chart. The same chart gives the same drawing, whatever was drawn before. */
export async function drawChart({ spec, text }: Drawable): Promise<Drawing> {
  const warnings: string[] = [];
  const markup = await draw(spec, collector(warnings));
  const drawing = tidy(readSvg(markup), fontSize);
  renumberClips(drawing);
  const width = Number(drawing.attributes.get('width'));
  const height = Number(drawing.attributes.get('height'));
  return { ...finish(drawing, text), width, height, warnings };
}

async function draw({ datasets, ...spec }: ChartSpec, logger: LoggerInterface): Promise<string> {
  const view = new View(runtimeOf(spec, logger), { renderer: 'none', logger });
  for (const [name, rows] of Object.entries(datasets ?? {})) view.data(name, copied(rows));
  const markup = await view.toSVG();
  view.finalize();
  return markup;
}

/** Vega writes into the rows it is given. */
function copied(rows: unknown): Row[] {
  return Array.isArray(rows) ? rows.map((row: Row) => ({ ...row })) : [];
}

function runtimeOf(spec: ChartSpec, logger: LoggerInterface): Runtime {
  const key = JSON.stringify(spec);
  const found = parsed.get(key);
  if (found !== undefined) return found;
  const runtime = parse(compile(spec, { logger }).spec);
  const [oldest] = parsed.keys();
  if (parsed.size >= mostKept && oldest !== undefined) parsed.delete(oldest);
  parsed.set(key, runtime);
  return runtime;
}

function finish(drawing: SvgElement, { title, description }: ChartText): Pick<Drawing, 'markup' | 'key'> {
  const key = `c${hash(writeSvg(drawing) + title + description)}`;
  const [titleId, descId] = [`${placeholder}-t`, `${placeholder}-d`];
  const { width, height } = Object.fromEntries(drawing.attributes);
  const attributes = new Map(
    Object.entries({
      xmlns: 'http://www.w3.org/2000/svg',
      class: 'chart-drawing',
      viewBox: `0 0 ${width} ${height}`,
      width: `${width}`,
      height: `${height}`,
      role: 'img',
      'aria-labelledby': `${titleId} ${descId}`,
      'font-family': chartFont,
      'font-size': `${fontSize}`,
    }),
  );
  const named = [labelled('title', titleId, title), labelled('desc', descId, description)];
  return {
    key,
    markup: writeSvg({ name: 'svg', attributes, children: [...named, ...drawing.children] }),
  };
}

function labelled(name: string, id: string, text: string): SvgElement {
  return { name, attributes: new Map([['id', id]]), children: [escapeText(text)] };
}

/** A logger that keeps what it is told; Vega and Vega-Lite report slips of a spec only there. */
function collector(warnings: string[]): LoggerInterface {
  const keep = (...args: readonly unknown[]) => {
    warnings.push(args.map(String).join(' '));
    return logger;
  };
  const logger: LoggerInterface = {
    level: () => logger,
    error: keep,
    warn: keep,
    info: () => logger,
    debug: () => logger,
  } as LoggerInterface;
  return logger;
}
