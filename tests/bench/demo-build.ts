import { spawnSync } from 'node:child_process';
import { globSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { pathToFileURL } from 'node:url';
import { brotliCompressSync, gzipSync } from 'node:zlib';

/** What one build of the demo journal costs, and what one of its pages weighs. */
interface BuildMeasure {
  coldS: number;
  warmS: number;
  peakMiB: number;
  /** Bytes of HTML of one page of each kind: as written, and compressed. */
  pages: { page: string; raw: number; gzip: number; brotli: number }[];
  cssGzip: number;
}

const kinds: Readonly<Record<string, RegExp>> = {
  home: /^index\.html$/,
  log: /^logs\/[^/]+\/index\.html$/,
  capture: /^logs\/[^/]+\/[^/]+\/index\.html$/,
  version: /^amplifiers\/[^/]+\/[^/]+\/index\.html$/,
  methods: /^methods\/index\.html$/,
};

/** Builds the demo journal into a temporary folder and reports wall time and peak memory of the process. */
function build(out: string): { seconds: number; peakMiB: number } {
  const command = JSON.stringify(pathToFileURL('src/cli/run.ts').href);
  const code = `const { run } = await import(${command});
    process.exitCode = await run(process.argv.slice(1));
    console.log(process.resourceUsage().maxRSS);`;
  const args = ['--input-type=module', '--eval', code, '--', 'build', '--journal', 'content', '--out', out];
  const started = performance.now();
  const { stdout, status, stderr } = spawnSync(process.execPath, args, { encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
  return {
    seconds: (performance.now() - started) / 1000,
    peakMiB: Number(stdout.trim().split('\n').at(-1)) / 1024,
  };
}

/** The heaviest page of a kind. */
function heaviest(out: string, kind: string, pattern: RegExp): BuildMeasure['pages'][number] {
  const files = globSync('**/*.html', { cwd: out }).filter((file) => pattern.test(file));
  const texts = files.map((file) => ({ file, text: readFileSync(join(out, file)) }));
  const [largest] = texts.sort((a, b) => b.text.length - a.text.length);
  const text = largest?.text ?? Buffer.alloc(0);
  const compressed = { gzip: gzipSync(text).length, brotli: brotliCompressSync(text).length };
  return { page: `${kind}: ${largest?.file}`, raw: text.length, ...compressed };
}

export function measureDemoBuild(): BuildMeasure {
  const folder = mkdtempSync(join(tmpdir(), 'quiescent-bench-'));
  const out = join(folder, 'site');
  rmSync('content/.quiescent', { recursive: true, force: true });
  const cold = build(out);
  const warm = build(out);
  const css = globSync('assets/*.css', { cwd: out }).map(
    (file) => gzipSync(readFileSync(join(out, file))).length,
  );
  const measure = {
    coldS: cold.seconds,
    warmS: warm.seconds,
    peakMiB: Math.max(cold.peakMiB, warm.peakMiB),
    pages: Object.entries(kinds).map(([kind, pattern]) => heaviest(out, kind, pattern)),
    cssGzip: css.reduce((sum, size) => sum + size, 0),
  };
  rmSync(folder, { recursive: true });
  return measure;
}
