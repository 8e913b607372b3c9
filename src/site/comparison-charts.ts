import { type ChartResult, thdAgainstFrequency, thdAgainstPower } from '../charts/index.ts';
import { curveName, type Ranking, rankingText } from '../compare/index.ts';
import { definitionOf } from '../figures/index.ts';
import type { ComparedPair } from '../journal/comparisons/comparisons.ts';
import { comparedResponse } from './compared-response.ts';
import { titlesOf } from './comparisons.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** The responses of a pair, and a chart for each curve over frequency and output power, titled by what it allows to be said. */
export function comparisonCharts(pair: ComparedPair): SizedChart[] {
  const curves = pair.curves.rankings.flatMap((ranking) => chartOf(ranking, titlesOf(pair)) ?? []);
  const levels = comparedResponse(pair);
  return levels ? [levels, ...curves] : curves;
}

function chartOf(ranking: Ranking, titles: [string, string]): SizedChart | null {
  const { along, places, figure } = ranking;
  if (along === 'input') return null;
  const at = places.map((place) => place.at);
  const sides = (['first', 'second'] as const).map((side, i) => ({
    name: titles[i] ?? '',
    ratio: places.map((place) => place[side].value),
    ...intervalOf(places.map((place) => place[side])),
  }));
  const quantity = definitionOf(figure)?.name ?? figure;
  const caption = `${curveName(ranking)}. Bands are apart where the two are told apart.`;
  const chart =
    along === 'frequency'
      ? sized(
          thdAgainstFrequency,
          { quantity, series: sides.map((side) => ({ ...side, frequencyHz: at })) },
          caption,
        )
      : sized(
          thdAgainstPower,
          { quantity, series: sides.map((side) => ({ ...side, powerW: at, marks: [] })) },
          caption,
        );
  const title = titleOf(ranking, titles);
  return { ...chart, wide: titled(chart.wide, title), narrow: titled(chart.narrow, title) };
}

/** Bounds of every reading; none where one of them has no interval. */
function intervalOf(figures: readonly { low?: number; high?: number }[]) {
  const low = figures.map((figure) => figure.low ?? null);
  const high = figures.map((figure) => figure.high ?? null);
  return low.includes(null) || high.includes(null) ? {} : { low, high };
}

function titleOf(ranking: Ranking, titles: [string, string]): string {
  if (ranking.stretches.length === 0) return `${curveName(ranking)}: they cannot be told apart`;
  return rankingText(ranking, titles).replace(/\.$/, '');
}

const titled = (chart: ChartResult, title: string): ChartResult =>
  'absent' in chart ? chart : { ...chart, text: { ...chart.text, title } };
