import { nearestNames, type Problem, problemAt } from '../problem/index.ts';
import { channelsOf, chartKindsOf } from './analysis/chart-kinds.ts';
import { messages } from './messages.ts';
import { proseMessages } from './prose/messages.ts';
import type { CaptureRecord, Journal, Mention, Prose } from './types.ts';

/** Checks that every chart and summary placed in prose can be drawn; `declared` names captures, unreadable ones too. */
export function checkMentions(
  prose: Prose,
  captures: readonly CaptureRecord[],
  declared: readonly string[],
): Problem[] {
  return prose.mentions.flatMap((mention) => {
    const capture = captures.find(({ name }) => name === mention.capture);
    if (capture) return checkMention(mention, capture);
    if (declared.includes(mention.capture)) return [];
    const near = nearestNames(mention.capture, declared);
    return [problemAt(mention.place, proseMessages.unknownCapture(mention.capture, near, declared))];
  });
}

/** Checks the charts and summaries of all records but logs, which name captures by their ids. */
export function checkMentionsById(journal: Journal, declared: readonly string[]): Problem[] {
  const { amplifiers, versions, units, parts, decisions, listening, comparisons, pages, logs } = journal;
  const placing = [amplifiers, versions, units, parts, decisions, listening, comparisons, pages]
    .flat()
    .filter(({ prose }) => prose.mentions.length > 0);
  if (placing.length === 0) return [];
  const named = logs.flatMap(({ captures }) => captures.map((capture) => ({ ...capture, name: capture.id })));
  return placing.flatMap(({ prose }) => checkMentions(prose, named, declared));
}

function checkMention({ kind, channel, place }: Mention, capture: CaptureRecord): Problem[] {
  const kinds = chartKindsOf(capture);
  const channels = channelsOf(capture);
  const problems: Problem[] = [];
  if (kind !== null && !(kinds as string[]).includes(kind)) {
    problems.push(problemAt(place, proseMessages.unknownChart(kind, nearestNames(kind, kinds), kinds)));
  }
  if (channel !== null && !channels.includes(channel)) {
    problems.push(problemAt(place, messages.unknownColumn(channel, channels)));
  }
  return problems;
}
