/** A colour of the charts: the CSS custom property and its value on light and on dark paper. */
export interface ChartColour {
  variable: string;
  light: string;
  dark: string;
}

/**
 * Every colour a chart uses. Charts refer to the custom properties with the light value as fallback; the
 * site's style sheet defines them for both schemes.
 *
 * The four data colours come from one published colour-blind-safe set: its darker members stand on light
 * paper, its lighter ones on dark. Two channels are told apart as purple and green (rose and teal on dark).
 * @source P. Tol, Colour Schemes, SRON/EPS/TN/09-002 issue 3.2 (2021-08-18), qualitative scheme "muted":
 * light purple AA4499, green 117733, indigo 332288, wine 882255; dark rose CC6677, teal 44AA99, cyan 88CCEE,
 * sand DDCC77
 */
export const chartColours = {
  paper: { variable: '--chart-paper', light: '#fbfaf6', dark: '#16181a' },
  ink: { variable: '--chart-ink', light: '#1d1b16', dark: '#e8e4da' },
  soft: { variable: '--chart-soft', light: '#68635a', dark: '#a39e93' },
  rule: { variable: '--chart-rule', light: '#e4dfd3', dark: '#2b2f32' },
  decade: { variable: '--chart-decade', light: '#c9c3b4', dark: '#43484c' },
  data1: { variable: '--chart-data-1', light: '#AA4499', dark: '#CC6677' },
  data2: { variable: '--chart-data-2', light: '#117733', dark: '#44AA99' },
  data3: { variable: '--chart-data-3', light: '#332288', dark: '#88CCEE' },
  data4: { variable: '--chart-data-4', light: '#882255', dark: '#DDCC77' },
} as const satisfies Record<string, ChartColour>;

/** The value a chart gives to a fill or stroke: the custom property with the light colour as fallback. */
export function colour(name: keyof typeof chartColours): string {
  const { variable, light } = chartColours[name];
  return `var(${variable},${light})`;
}

/** The family of all text in a chart; the first name is the one the widths of text-width.ts belong to. */
export const chartFont = "var(--chart-font,'IBM Plex Sans',sans-serif)";

/** Size of all text in a chart, in pixels at the width it is designed for. */
export const fontSize = 13;

/** Pixels between an axis and its numbers. */
export const numberPadding = 7;

/** How a line is drawn: colour, dash and weight together, so that colour is never the only cue. */
export interface LineStyle {
  stroke: string;
  dash: number[];
  weight: number;
}

const lineStyles: readonly LineStyle[] = [
  { stroke: colour('data1'), dash: [], weight: 1.8 },
  { stroke: colour('data2'), dash: [7, 3], weight: 1.8 },
  { stroke: colour('data3'), dash: [2, 2.5], weight: 2 },
  { stroke: colour('data4'), dash: [9, 3, 2, 3], weight: 1.6 },
  { stroke: colour('ink'), dash: [], weight: 1.1 },
  { stroke: colour('soft'), dash: [4, 2], weight: 1.3 },
];

/** The style of the nth line of a chart; after six lines the styles begin again. */
export function lineStyle(index: number): LineStyle {
  return lineStyles[index % lineStyles.length] ?? { stroke: colour('ink'), dash: [], weight: 1.5 };
}

const harmonicStyles: Readonly<Record<number, LineStyle>> = {
  2: { stroke: colour('data3'), dash: [], weight: 2.2 },
  3: { stroke: colour('data4'), dash: [7, 3], weight: 1.8 },
  4: { stroke: colour('data2'), dash: [2, 2.5], weight: 1.8 },
  5: { stroke: colour('data1'), dash: [9, 3, 2, 3], weight: 1.3 },
};

/** The style of one harmonic, the same in every chart; orders above the fifth are thin and soft. */
export function harmonicStyle(order: number): LineStyle {
  return harmonicStyles[order] ?? { stroke: colour('soft'), dash: [order, 2], weight: 1.1 };
}
