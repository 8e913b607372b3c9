import { stat } from 'node:fs/promises';
import path from 'node:path';
import { maxBytes, tooLarge } from '../../capture/index.ts';
import { nearestNames, type Problem, problemAt } from '../../problem/index.ts';
import { resolveInside } from '../files.ts';
import { captureName } from '../ids.ts';
import { messages } from '../messages.ts';
import type { RawRecord } from '../records.ts';
import { type CaptureData, captureDeclaration, type LogData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import type { AnalysisCache, FoundResult } from './analysis-cache.ts';
import { type Bench, benchSettings } from './bench.ts';
import { figuresOf, findingsOf } from './capture-figures.ts';
import { rangeProblems } from './instrument-range.ts';
import { measuredFigures, measurementOf } from './measurement.ts';

interface Resolved {
  captures: CaptureRecord[];
  problems: Problem[];
}

/** Reads and analyses the captures that a log declares; each fault stands at its line in the log or the CSV. */
export async function resolveCaptures(
  root: string,
  log: RawRecord<LogData>,
  files: readonly string[],
  cache: AnalysisCache,
  bench: Bench,
): Promise<Resolved> {
  const names = log.data.captures.map(captureName);
  const all: Resolved = { captures: [], problems: [] };
  cache.expect(names.length);
  for (const [index, data] of log.data.captures.entries()) {
    const name = captureName(data);
    if (names.indexOf(name) < index) {
      all.problems.push(problemAt(log.yaml.placeOf(['captures', index]), messages.captureTwice(name)));
      continue;
    }
    const one = await resolveOne({ root, log, files, cache, bench, index, data, name });
    all.captures.push(...one.captures);
    all.problems.push(...one.problems);
  }
  return all;
}

interface Task {
  root: string;
  log: RawRecord<LogData>;
  files: readonly string[];
  cache: AnalysisCache;
  bench: Bench;
  index: number;
  data: CaptureData;
  name: string;
}

async function resolveOne(task: Task): Promise<Resolved> {
  const { root, log, files, cache, bench, data, index } = task;
  const place = log.yaml.placeOf(['captures', index, 'file']);
  const refuse = (fault: Parameters<typeof problemAt>[1]): Resolved => ({
    captures: [],
    problems: [problemAt(place, fault)],
  });
  const file = resolveInside(log.file, data.file);
  if (file === null) return refuse(messages.leavesJournal(data.file));
  if (!files.includes(file)) {
    const beside = files.filter((other) => path.posix.dirname(other) === path.posix.dirname(file));
    return refuse(
      messages.captureMissing(
        data.file,
        nearestNames(
          data.file,
          beside.map((other) => path.posix.basename(other)),
        ),
      ),
    );
  }
  const size = await stat(path.join(root, file)).then(
    (found) => found.size,
    () => 0,
  );
  if (size > maxBytes) {
    const problem = problemAt({ file, line: 1, column: 1 }, tooLarge(size, maxBytes));
    return { captures: [], problems: [problem] };
  }
  const version = data.version ?? log.data.version ?? null;
  const declaration = captureDeclaration(data);
  const settings = {
    ...benchSettings(bench, data, version),
    harmonics: data.harmonics,
    bandHz: data.band,
    loadOhm: data.load,
    powersW: data.atPower,
    tonesHz: data.tones,
  };
  const found = await cache.resultOf({ path: path.join(root, file), file, declaration, settings });
  return 'unreadable' in found
    ? refuse(messages.unreadable(found.unreadable))
    : recordOf(task, { file, version, declaration, ...found });
}

interface Found extends FoundResult, Pick<CaptureRecord, 'file' | 'version' | 'declaration'> {}

function recordOf(
  { log, data, bench, index, name }: Task,
  { file, version, declaration, sha256, bytes, result: { reading, analysed, peaks } }: Found,
): Resolved {
  if (!reading.capture || !analysed) return { captures: [], problems: reading.problems };
  const { capture } = reading;
  const place = log.yaml.placeOf(['captures', index]);
  const faults = analysed.warnings.map((warning) =>
    problemAt(place, { ...warning, severity: 'warning' as const }),
  );
  const turnedRound = reading.problems.some(({ rule }) => rule === 'capture-descending');
  const taken = { file, data, capture, peaks, analysis: analysed.analysis, turnedRound };
  const measurement = measurementOf(taken, bench.settings.instruments);
  const outOfRange = measurement
    ? rangeProblems(taken, measurement, log.yaml.placeOf(['captures', index, 'instrument']))
    : [];
  const record = {
    id: `${log.id}/${name}`,
    ...{ name, file, sha256, data, declaration, capture },
    ...{ bytes, kind: capture.kind },
    analysis: analysed.analysis,
    warnings: [...reading.problems, ...analysed.warnings, ...outOfRange].map(({ message }) => message),
    log: log.id,
    version,
    findings: findingsOf(analysed.analysis),
    output: null,
    subtraction: null,
    repeatability: [],
    measurement,
  };
  return {
    captures: [{ ...record, figures: measuredFigures(figuresOf(record), measurement) }],
    problems: [...reading.problems, ...faults, ...outOfRange],
  };
}
