import { globSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Chart, type ChartResult, renderChart } from '../../../src/charts/index.ts';
import { chartKindsOf } from '../../../src/journal/analysis/chart-kinds.ts';
import { type CaptureRecord, openJournal } from '../../../src/journal/index.ts';
import { captureChart } from '../../../src/site/capture-charts.ts';

/**
 * Writes the specs of charts of captures that stand in a built site, one to a line, taken from so many logs spread over
 * the journal; prints how many distinct charts the whole site has.
 */
async function writeSpecs(journal: string, site: string, logs: number, file: string): Promise<void> {
  const drawn = drawnIn(site);
  const { journal: opened } = await openJournal(journal);
  const all = opened?.logs ?? [];
  const step = Math.max(1, Math.floor(all.length / logs));
  const captures = all.filter((_, index) => index % step === 0).flatMap((log) => log.captures);
  const specs: string[] = [];
  for (const chart of captures.flatMap(chartsOf)) {
    const { svg } = await renderChart(chart);
    if (namesIn(svg).some((name) => drawn.has(name))) specs.push(JSON.stringify(chart.spec));
  }
  writeFileSync(file, `${specs.join('\n')}\n`);
  console.log(drawn.size);
}

/** Names of the drawings on all pages of a site; they come from what is drawn, so that one chart counts once. */
function drawnIn(site: string): Set<string> {
  const pages = globSync('**/*.html', { cwd: site });
  return new Set(pages.flatMap((page) => namesIn(readFileSync(join(site, page), 'utf8'))));
}

const namesIn = (html: string): string[] =>
  [...html.matchAll(/class="chart-drawing"[^>]*aria-labelledby="(c[0-9a-f]+)/g)].map(([, name = '']) => name);

const chartsOf = (capture: CaptureRecord): Chart[] =>
  chartKindsOf(capture)
    .map((kind) => captureChart(capture, kind, null))
    .flatMap((sized): ChartResult[] => (sized ? [sized.wide, sized.narrow] : []))
    .flatMap((chart) => ('absent' in chart ? [] : [chart]));

const [journal = '', site = '', logs = '', file = ''] = process.argv.slice(2);
await writeSpecs(journal, site, Number(logs), file);
