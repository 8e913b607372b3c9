import { nearestNames, type Problem, problemAt } from '../problem/index.ts';
import { channelsOf, chartKindsOf } from './analysis/chart-kinds.ts';
import { captureName } from './ids.ts';
import { messages } from './messages.ts';
import { proseMessages } from './prose/messages.ts';
import type { Log, Mention } from './types.ts';

/** Checks that every chart and summary placed in a log's prose can be drawn. */
export function checkMentions({
  captures,
  prose,
  data,
}: Pick<Log, 'captures' | 'prose' | 'data'>): Problem[] {
  const declared = data.captures.map(captureName);
  return prose.mentions.flatMap((mention) => {
    const capture = captures.find(({ name }) => name === mention.capture);
    if (capture) return checkMention(mention, capture);
    if (declared.includes(mention.capture)) return [];
    const near = nearestNames(mention.capture, declared);
    return [problemAt(mention.place, proseMessages.unknownCapture(mention.capture, near, declared))];
  });
}

function checkMention({ kind, channel, place }: Mention, capture: Log['captures'][number]): Problem[] {
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
