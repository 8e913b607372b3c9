import { addedFigures } from '../../figures/index.ts';
import type { Problem } from '../../problem/index.ts';
import { type SweptGain, subtractPassedOn, type Transfer } from '../../signal/index.ts';
import { captureOf, faultAt, type OutputTask } from '../stages/output-task.ts';
import type { CaptureRecord } from '../types.ts';
import { contextOf } from './capture-figures.ts';
import { measuredFigures } from './measurement.ts';
import { subtractionMessages as messages } from './subtraction-messages.ts';

interface Joined {
  capture: CaptureRecord;
  problems: Problem[];
}

/** A capture with what was added between its channels, where it names a sweep of the gain between them. */
export function withSubtraction(task: OutputTask): Joined {
  const { capture } = task;
  const { responseSweep: wanted } = capture.data;
  const nothing = { capture, problems: [] };
  if (wanted === undefined) return nothing;
  const refuse = (fault: Parameters<typeof faultAt>[2]): Joined => ({
    capture,
    problems: [faultAt(task, 'responseSweep', fault)],
  });
  const { analysis } = capture;
  const transfer = analysis.kind === 'waveform' ? analysis.summary.transfers[0] : undefined;
  if (!transfer) return refuse(messages.noTransfer());
  const found = captureOf(task, 'responseSweep', wanted);
  if (found === null) return nothing;
  if ('problem' in found) return { capture, problems: [found.problem] };
  const sweep = sweptGain(found.value);
  if (!sweep) return refuse(messages.notASweep(wanted, found.value.kind));
  return subtracted(capture, transfer, sweep) ?? refuse(messages.notReached(wanted));
}

function subtracted(capture: CaptureRecord, transfer: Transfer, sweep: SweptGain): Joined | null {
  const { analysis, measurement } = capture;
  const channels = analysis.kind === 'waveform' ? analysis.summary.channels : [];
  const [stimulus, response] = [transfer.stimulus, transfer.response].map((name) =>
    channels.find((channel) => channel.name === name),
  );
  const subtraction = stimulus && response ? subtractPassedOn(stimulus, response, sweep) : null;
  if (!subtraction) return null;
  const added = measuredFigures(addedFigures(subtraction, contextOf(capture)), measurement);
  const bounds = capture.figures.findIndex(({ id }) => id.startsWith('added-distortion'));
  const place = bounds === -1 ? capture.figures.length : bounds;
  const figures = capture.figures.toSpliced(place, 0, ...added);
  return { capture: { ...capture, subtraction, figures }, problems: [] };
}

/** Gain and phase of the first channel of a frequency sweep: its level over that of the stimulus where that was read. */
function sweptGain({ analysis, capture }: CaptureRecord): SweptGain | null {
  const channel = analysis.kind === 'frequency-sweep' ? analysis.sweeps[0]?.channel : undefined;
  if (analysis.kind !== 'frequency-sweep' || !channel?.level || !channel.phase) return null;
  const { level, phase } = channel;
  const stimulus = capture.columns.find(
    ({ role, quantity }) => role === 'stimulus' && quantity === level.quantity,
  );
  return {
    frequencyHz: analysis.axis.values,
    level: level.values.map((value, row) => value / (stimulus?.values[row] ?? 1)),
    phaseDeg: phase.values,
  };
}
