import { response } from '../charts/index.ts';
import type { ComparedAlternative, ComparedSource } from '../journal/comparisons/compared-sources.ts';
import type { ComparedPair } from '../journal/comparisons/comparisons.ts';
import { decibelsRe } from './capture-charts.ts';
import { type SizedChart, sized } from './sized-chart.ts';

/** The responses of two alternatives in one chart; null unless both have a sweep whose level was let run. */
export function comparedResponse({ first, second }: ComparedPair): SizedChart | null {
  const channels = [first, second].flatMap((alternative) => channelOf(alternative) ?? []);
  const [one, other] = channels;
  if (!one || !other || one.referenceHz !== other.referenceHz) return null;
  const data = { quantity: 'Level', referenceHz: one.referenceHz, channels };
  return sized(response, data, `Level against frequency of ${one.name} and ${other.name}.`);
}

function channelOf({ data, sources }: ComparedAlternative) {
  const found = sources.flatMap((source) => levelsOf(source) ?? [])[0];
  return found && { name: data.title, ...found };
}

/** Level re the reference of a sweep; a sweep with distortion is taken at a level that is held, and shows no response. */
function levelsOf({ capture: { analysis }, channel: name }: ComparedSource) {
  if (analysis.kind !== 'frequency-sweep') return null;
  const sweep = analysis.sweeps.find(({ channel }) => channel.name === name);
  const level = sweep?.channel.level;
  const reference = sweep?.summary.response;
  if (!sweep || !level || !reference || sweep.channel.thd || sweep.channel.harmonics.length > 0) return null;
  return {
    referenceHz: reference.referenceHz,
    frequencyHz: analysis.axis.values,
    levelDb: level.values.map(decibelsRe(level.quantity, reference)),
  };
}
