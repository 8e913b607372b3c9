import { globSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { capturesOf } from '../../support/synthetic/captures.ts';
import { chanceOf } from '../../support/synthetic/chance.ts';
import { writeSyntheticJournal } from '../../support/synthetic/journal.ts';
import { placeOf } from '../../support/synthetic/plan.ts';
import { writeBareProject } from './bare-root.ts';
import { sharedOut, type Watched, watched } from './watched.ts';

/** What building one synthetic journal costs, and what its parts cost by themselves. */
export interface BuildMeasure {
  logs: number;
  pages: number;
  htmlMB: number;
  captures: number;
  /** Distinct drawings on all pages. */
  charts: number;
  cold: Watched;
  unchanged: Watched;
  edited: Watched;
  bareCold: Watched;
  bareWarm: Watched;
  /** Wall time of splitting and converting every capture, on all cores. */
  readingS: number;
  /** Wall time of rendering every distinct drawing afresh, on all cores. */
  renderingS: number;
  /** Drawings that were rendered for that; the rest is in proportion. */
  rendered: number;
}

const cores = availableParallelism();
const seed = 1;
/** Logs whose charts are rendered afresh; more would take longer than the build. */
const sampledLogs = 25;

const program = (name: string) => join(import.meta.dirname, name);

/** Everything is written below the system's folder for temporary files and is gone afterwards. */
export async function measureBuild(logs: number): Promise<BuildMeasure> {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-bench-'));
  try {
    return await measureIn(folder, logs);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

async function measureIn(folder: string, logs: number): Promise<BuildMeasure> {
  const [journal, site, bare, specs] = ['journal', 'site', 'bare', 'specs.jsonl'].map((name) =>
    join(folder, name),
  );
  if (!journal || !site || !bare || !specs) throw new Error('A folder is missing.');
  await writeSyntheticJournal(journal, { logs, seed });
  const build = () => watched(['src/cli/main.ts', 'build', '--timings', '--journal', journal, '--out', site]);
  const cold = await build();
  const unchanged = await build();
  editCapture(journal, Math.floor(logs / 2));
  const edited = await build();
  writeBareProject(bare, journal, site);
  const bareBuild = () => watched([program('bare-site.ts'), bare]);
  const bareCold = await bareBuild();
  const bareWarm = await bareBuild();
  const reading = await sharedOut(program('bare-captures.ts'), cores, [journal]);
  const drawings = Number(
    (await watched([program('chart-specs.ts'), journal, site, `${sampledLogs}`, specs])).output,
  );
  return {
    ...{
      logs,
      ...sizeOf(site),
      captures: globSync('logs/*/*.csv', { cwd: journal }).length,
      charts: drawings,
    },
    ...{ cold, unchanged, edited, bareCold, bareWarm },
    readingS: Math.max(...reading.map(({ seconds }) => seconds)),
    ...(await renderedAfresh(specs, drawings)),
  };
}

/** One waveform of the log in the middle is taken anew. */
function editCapture(journal: string, ordinal: number): void {
  const [first] = capturesOf(chanceOf(seed + 1, ordinal));
  if (first) writeFileSync(join(journal, placeOf(ordinal).id, first.name), first.bytes);
}

function sizeOf(site: string): Pick<BuildMeasure, 'pages' | 'htmlMB'> {
  const pages = globSync('**/*.html', { cwd: site });
  const bytes = pages.reduce((sum, page) => sum + statSync(join(site, page)).size, 0);
  return { pages: pages.length, htmlMB: bytes / 1e6 };
}

/** Renders the sample on all cores; the time of rendering alone, in proportion for all drawings. */
async function renderedAfresh(
  specs: string,
  drawings: number,
): Promise<Pick<BuildMeasure, 'renderingS' | 'rendered'>> {
  const shares = await sharedOut(program('bare-charts.ts'), cores, [specs]);
  const printed = shares.map(({ output }) => output.trim().split(' ').map(Number));
  const rendered = printed.reduce((sum, [, count = 0]) => sum + count, 0);
  const slowest = Math.max(...printed.map(([seconds = 0]) => seconds));
  return { rendered, renderingS: (slowest * drawings) / rendered };
}
