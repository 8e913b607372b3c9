import { type LoadedLevel, type OutputImpedance, outputImpedance } from '../../signal/index.ts';
import { outputMessages as messages } from '../stages/output-messages.ts';
import { captureOf, type Found, faultAt, type OutputTask } from '../stages/output-task.ts';
import type { CaptureRecord } from '../types.ts';
import type { SweepChannel } from './sweep-channels.ts';

/** Output impedance of a frequency sweep that states two loads, in its channels or in another capture. */
export function twoLoads(task: OutputTask): Found<OutputImpedance> {
  const { otherLoad, readingAccuracy = null } = task.capture.data;
  const own = loadedChannels(task.capture);
  if (otherLoad === undefined) {
    if (own.length === 0) return null;
    const [first, second] = own;
    if (!first || !second || own.length > 2) {
      return { problem: faultAt(task, 'columns', messages.twoLoads(own.length)) };
    }
    return between(task, first, second, readingAccuracy);
  }
  const other = captureOf(task, 'otherLoad', otherLoad);
  if (!other || 'problem' in other) return other;
  const [first, second] = [onlyLevel(task.capture), onlyLevel(other.value)];
  return first && second
    ? between(task, first, second, readingAccuracy)
    : { problem: faultAt(task, 'otherLoad', messages.loadsMissing(otherLoad)) };
}

function between(
  task: OutputTask,
  first: LoadedLevel,
  second: LoadedLevel,
  readingAccuracy: number | null,
): Found<OutputImpedance> {
  if (first.loadOhm !== second.loadOhm) return { value: outputImpedance(first, second, readingAccuracy) };
  const key = task.capture.data.otherLoad === undefined ? 'columns' : 'otherLoad';
  return { problem: faultAt(task, key, messages.sameLoad(first.loadOhm)) };
}

/** The channels whose declared column states a load. */
function loadedChannels(capture: CaptureRecord): LoadedLevel[] {
  const { analysis, data } = capture;
  if (analysis.kind !== 'frequency-sweep') return [];
  return analysis.sweeps.flatMap(({ channel }) => {
    const load = data.columns?.[channel.name]?.load;
    const level = load === undefined ? null : levelAcross(channel, analysis.axis.values, load);
    return level ? [level] : [];
  });
}

/** The level of a capture with one channel and one load. */
function onlyLevel({ analysis, data }: CaptureRecord): LoadedLevel | null {
  if (analysis.kind !== 'frequency-sweep' || analysis.sweeps.length !== 1 || data.load === undefined)
    return null;
  const channel = analysis.sweeps[0]?.channel;
  return channel ? levelAcross(channel, analysis.axis.values, data.load) : null;
}

/** A channel as the voltage across its load, or in proportion to it where it is a gain. */
function levelAcross(
  { level, phase }: SweepChannel,
  frequencyHz: Float64Array,
  loadOhm: number,
): LoadedLevel | null {
  if (!level) return null;
  const volts = {
    power: (value: number) => Math.sqrt(value * loadOhm),
    current: (value: number) => value * loadOhm,
  };
  const { quantity, values } = level;
  const across = quantity === 'power' || quantity === 'current' ? values.map(volts[quantity]) : values;
  return { loadOhm, frequencyHz, level: across, ...(phase && { phaseDeg: phase.values }) };
}
