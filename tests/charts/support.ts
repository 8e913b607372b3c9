import { parse, View } from 'vega';
import { compile } from 'vega-lite';
import type { Chart, ChartResult } from '../../src/charts/index.ts';
import { textWidth } from '../../src/charts/text-width.ts';

/** The chart of a result that must have one. */
export function chartOf(result: ChartResult): Chart {
  if ('absent' in result) throw new Error(`there is no chart: ${result.absent}`);
  return result;
}

/** A line of text in a drawing, with the box its capitals fill, in pixels from the top left of the plot. */
export interface DrawnText {
  text: string;
  left: number;
  right: number;
  top: number;
  bottom: number;
}

interface SceneItem {
  x?: number;
  y?: number;
  dx?: number;
  text?: string | string[];
  align?: string;
  baseline?: string;
  fontSize?: number;
  lineHeight?: number;
  items?: SceneMark[];
}

interface SceneMark {
  marktype: string;
  items: SceneItem[];
}

/** The scene of a chart as Vega lays it out: one summary per mark, and all text with its place. */
export async function sceneOf({ spec }: Chart): Promise<{ marks: string[]; texts: DrawnText[] }> {
  const view = new View(parse(compile(structuredClone(spec)).spec), { renderer: 'none' });
  await view.runAsync();
  const { root } = view.scenegraph() as unknown as { root: SceneMark };
  const marks: string[] = [];
  const texts: DrawnText[] = [];
  walk(root, 0, 0, marks, texts);
  view.finalize();
  return { marks, texts };
}

function walk(mark: SceneMark, x: number, y: number, marks: string[], texts: DrawnText[]): void {
  if (mark.marktype !== 'group' && mark.items.length > 0) marks.push(summary(mark));
  for (const item of mark.items) {
    const [left, top] = [x + (item.x ?? 0), y + (item.y ?? 0)];
    if (mark.marktype === 'text') texts.push(...linesOf(item, left, top));
    for (const inner of item.items ?? []) walk(inner, left, top, marks, texts);
  }
}

/** A mark with its first and last places, rounded so that the last digits of arithmetic do not matter. */
function summary({ marktype, items }: SceneMark): string {
  const places = [items[0], items.at(-1)].map((item) => `${round(item?.x)},${round(item?.y)}`);
  return `${marktype} ${items.length}: ${places.join(' to ')}`;
}

const round = (value: number | undefined): string =>
  value === undefined ? '-' : `${Math.round(value * 10) / 10 || 0}`;

function linesOf(item: SceneItem, x: number, y: number): DrawnText[] {
  const lines = [item.text ?? ''].flat().filter((line) => line !== '');
  return lines.map((text, i) => {
    const width = textWidth(text, item.fontSize ?? 11);
    const left = x - width * ({ center: 0.5, right: 1 }[item.align ?? 'left'] ?? 0);
    const top = y + i * (item.lineHeight ?? 0) + ({ middle: -5, top: 0 }[item.baseline ?? ''] ?? -10);
    return { text, left, right: left + width, top, bottom: top + 10 };
  });
}
