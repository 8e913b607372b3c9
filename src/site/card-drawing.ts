import { chartColours, type RenderedChart } from '../charts/index.ts';
import { escapeText } from '../charts/svg/tree.ts';
import { wrapText } from '../charts/text-width.ts';
import { cardSize } from './cards.ts';

/** What stands above the chart's answer: the journal's title and that of the page. */
export interface CardTexts {
  site: string;
  title: string;
}

const margin = 60;
const gap = 50;
const widestChart = 620;

/** Advance of the semibold face over that of the regular one, at most. */
const semibold = 1.07;

/** The texts beside the chart from top to bottom; the families are named as in the fonts' own name tables. */
const styles = {
  site: { size: 24, line: 32, most: 2, widen: 1, family: 'IBM Plex Sans', colour: chartColours.soft },
  title: {
    ...{ size: 42, line: 51, most: 4, widen: semibold, colour: chartColours.ink },
    family: 'IBM Plex Sans SemiBold, IBM Plex Sans',
  },
  answer: { size: 29, line: 39, most: 6, widen: 1, family: 'IBM Plex Sans', colour: chartColours.ink },
} as const;

/**
 * A chart with its answer and the title of its page beside it, on the paper of the site, as SVG without custom
 * properties: every colour is that of light paper. The chart is one designed for narrow screens, as previews are small.
 */
export function cardMarkup(chart: RenderedChart, texts: CardTexts): string {
  const { width, height } = cardSize;
  const scale = Math.min(widestChart / chart.width, (height - 2 * margin) / chart.height);
  const left = width - margin - chart.width * scale;
  const room = left - gap - margin;
  const lines = [
    ...(texts.site === texts.title ? [] : linesOf(texts.site, 'site', room)),
    ...linesOf(texts.title, 'title', room),
    ...linesOf(chart.title, 'answer', room),
  ];
  const top = (height - chart.height * scale) / 2;
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" xml:lang="en" width="${width}" height="${height}">`,
    `<rect width="${width}" height="${height}" fill="${chartColours.paper.light}"/>`,
    ...textElements(lines),
    `<g transform="translate(${left} ${top}) scale(${scale})">${plainColours(chart.svg)}</g>`,
    '</svg>',
  ].join('');
}

/** A drawing with each custom property replaced by the value it falls back to. */
export function plainColours(svg: string): string {
  return svg.replaceAll(/var\(--[\w-]+,([^()]*)\)/g, '$1');
}

type Style = keyof typeof styles;

interface Line {
  text: string;
  style: Style;
  isFirst: boolean;
}

/** A text broken into no more lines than its style allows; what is left out shows as an ellipsis. */
function linesOf(text: string, style: Style, room: number): Line[] {
  const { size, most, widen } = styles[style];
  const lines = wrapText(text, size * widen, room);
  const kept = lines.slice(0, most);
  const last = kept.pop() ?? '';
  const ending = lines.length > most ? [`${withoutLastWord(last)} …`] : [last];
  return [...kept, ...ending].map((line, index) => ({ text: line, style, isFirst: index === 0 }));
}

const withoutLastWord = (line: string) => line.slice(0, line.lastIndexOf(' ') + 1).trimEnd() || line;

/** Lines below each other from the upper margin, each text a little apart from the one above it. */
function textElements(lines: readonly Line[]): string[] {
  let y = margin - 14;
  return lines.map(({ text, style, isFirst }) => {
    const { size, line, family, colour } = styles[style];
    y += line + (isFirst ? 14 : 0);
    const place = `x="${margin}" y="${y}" font-family="${family}" font-size="${size}"`;
    return `<text ${place} fill="${colour.light}">${escapeText(text)}</text>`;
  });
}
