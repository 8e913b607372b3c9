import { type AmplifierOutput, amplifierOutputFigures, amplifierOutputNotes } from '../../figures/index.ts';
import type { Problem } from '../../problem/index.ts';
import {
  type ImpedanceCurve,
  impedanceCurve,
  loudspeakerError,
  type OutputImpedance,
} from '../../signal/index.ts';
import { contextOf } from '../analysis/capture-figures.ts';
import { measuredFigures } from '../analysis/measurement.ts';
import { withSubtraction } from '../analysis/subtraction.ts';
import { twoLoads } from '../analysis/two-loads.ts';
import type { RawRecord } from '../records.ts';
import type { VersionData } from '../schemas/index.ts';
import type { CaptureRecord } from '../types.ts';
import { outputMessages as messages } from './output-messages.ts';
import { captureOf, type Found, faultAt, type OutputTask, type ReadLog } from './output-task.ts';

/**
 * Gives every capture of a log that shows an amplifier's output impedance that impedance, with the response error at
 * the loudspeaker it names, and every one that names a response sweep what was added between its channels. `every` are
 * the captures that may be named; a fault stands at the key that it is about.
 */
export function joinOutputs(
  log: ReadLog,
  every: readonly CaptureRecord[],
  versions: readonly Pick<RawRecord<VersionData>, 'id' | 'data'>[],
): { captures: CaptureRecord[]; problems: Problem[] } {
  const ratedLoadOf = (version: string | null) =>
    versions.find(({ id }) => id === version)?.data.ratedLoad ?? null;
  const joined = log.captures.map((capture) => {
    const added = withSubtraction({ log, capture, every });
    const one = joinOne({ log, capture: added.capture, every }, ratedLoadOf(capture.version));
    return { ...one, problems: [...added.problems, ...one.problems] };
  });
  return {
    captures: joined.map(({ capture }) => capture),
    problems: joined.flatMap(({ problems }) => problems),
  };
}

function joinOne(
  task: OutputTask,
  ratedLoad: number | null,
): { capture: CaptureRecord; problems: Problem[] } {
  const { capture } = task;
  const impedance = impedanceOf(task);
  const loudspeaker = loudspeakerOf(task, impedance !== null);
  const problems = [impedance, loudspeaker].flatMap((found) =>
    found && 'problem' in found ? [found.problem] : [],
  );
  if (!impedance || 'problem' in impedance) return { capture, problems };
  const named = loudspeaker && 'value' in loudspeaker ? loudspeaker.value : null;
  const output = outputOf(impedance.value, named, capture.data.ratedLoad ?? ratedLoad);
  return { capture: withOutput(capture, output), problems };
}

function outputOf(
  impedance: OutputImpedance,
  loudspeaker: CaptureRecord | null,
  ratedOhm: number | null,
): AmplifierOutput {
  const curve = loudspeaker && curveOf(loudspeaker);
  if (!loudspeaker || !curve) return { impedance, loudspeaker: null, ratedOhm };
  const error = ratedOhm === null ? null : loudspeakerError(impedance, curve, ratedOhm);
  return { impedance, loudspeaker: { title: loudspeaker.data.title, error }, ratedOhm };
}

function withOutput(capture: CaptureRecord, output: AmplifierOutput): CaptureRecord {
  const channel =
    capture.analysis.kind === 'impedance-sweep' ? capture.analysis.sweeps[0]?.channel.name : null;
  const figures = amplifierOutputFigures(output, { channel: channel ?? 'amplifier' }, contextOf(capture));
  return {
    ...capture,
    output,
    figures: [...capture.figures, ...measuredFigures(figures, capture.measurement)],
    findings: [...capture.findings, ...amplifierOutputNotes(output)],
  };
}

/** Output impedance as it was measured, or from two loads. */
function impedanceOf(task: OutputTask): Found<OutputImpedance> {
  const { capture } = task;
  if (capture.kind === 'frequency-sweep') return twoLoads(task);
  const curve = capture.data.impedanceOf === 'amplifier' ? curveOf(capture) : null;
  return curve && { value: { ...curve, halfWidthOhm: null, leftOut: 0 } };
}

/** The first channel of an impedance sweep; null for any other kind. */
function curveOf({ analysis }: CaptureRecord): ImpedanceCurve | null {
  if (analysis.kind !== 'impedance-sweep') return null;
  const channel = analysis.sweeps[0]?.channel;
  if (!channel?.level) return null;
  const phase = channel.phase ? { phaseDeg: channel.phase.values } : {};
  return impedanceCurve({ frequencyHz: analysis.axis.values, ohm: channel.level.values, ...phase });
}

function loudspeakerOf(task: OutputTask, hasOutput: boolean): Found<CaptureRecord> {
  const wanted = task.capture.data.loudspeaker;
  if (wanted === undefined) return null;
  if (!hasOutput) return { problem: faultAt(task, 'loudspeaker', messages.noOutputImpedance()) };
  const found = captureOf(task, 'loudspeaker', wanted);
  if (!found || 'problem' in found) return found;
  if (curveOf(found.value)) return found;
  return { problem: faultAt(task, 'loudspeaker', messages.notAnImpedance(wanted, found.value.kind)) };
}
