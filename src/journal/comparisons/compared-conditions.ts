import { type Problem, problemAt } from '../../problem/index.ts';
import { type Dimension, parseQuantity, quantityText } from '../../quantity/index.ts';
import type { RawRecord } from '../records.ts';
import type { ComparisonData } from '../schemas/index.ts';
import type { ComparedAlternative, ComparedSource } from './compared-sources.ts';
import { comparisonMessages as messages } from './comparison-messages.ts';

/** Captures of two alternatives that are compared, and what they do not share of what must match. */
export interface ComparedCaptures {
  first: ComparedSource;
  second: ComparedSource;
  /** "level 1 W and 2 W". */
  unmatched: string[];
}

/**
 * Pairs each capture of one alternative with that of the other which is of its kind and shares most of what must match;
 * several that share all of it make several pairs, and channels of one capture are paired with each other.
 */
export function comparedCaptures(
  one: ComparedAlternative,
  other: ComparedAlternative,
  { mustMatch }: Pick<ComparisonData, 'mustMatch'>,
  dates: ReadonlyMap<string, string>,
): ComparedCaptures[] {
  return one.sources.flatMap((first) => {
    const pairs = other.sources
      .filter(({ capture }) => capture.kind === first.capture.kind)
      .map((second) => ({ first, second, unmatched: differing(first, second, mustMatch, dates) }));
    const least = Math.min(...pairs.map(({ unmatched }) => unmatched.length));
    const nearest = pairs.filter(({ unmatched }) => unmatched.length === least);
    const together = nearest.filter(({ second }) => second.capture.id === first.capture.id);
    if (together.length > 0) return together;
    return least === 0 ? nearest : nearest.slice(0, 1);
  });
}

/** What does not match, as warnings at the capture of the second alternative, and pairs without any capture of one kind. */
export function conditionProblems(
  { data, yaml }: RawRecord<ComparisonData>,
  [one, other]: readonly [ComparedAlternative, ComparedAlternative],
  pairs: readonly ComparedCaptures[],
): Problem[] {
  const index = data.alternatives.indexOf(other.data);
  const missing = one.sources.length > 0 && other.sources.length > 0 && pairs.length === 0;
  const nothing = problemAt(
    yaml.placeOf(['alternatives', index, 'captures']),
    messages.nothingShared(one.data.id, other.data.id),
  );
  const unmatched = pairs
    .filter((pair) => pair.unmatched.length > 0)
    .map(({ first, second, unmatched: what }) => {
      const position = other.data.captures.findIndex((name) => name.startsWith(second.capture.id));
      const place = yaml.placeOf(['alternatives', index, 'captures', Math.max(0, position)]);
      return problemAt(place, messages.unmatched(first.capture.id, second.capture.id, what));
    });
  return [...(missing ? [nothing] : []), ...unmatched];
}

function differing(
  first: ComparedSource,
  second: ComparedSource,
  names: readonly string[],
  dates: ReadonlyMap<string, string>,
): string[] {
  return names.flatMap((name) => {
    const [before, after] = [first, second].map((source) => statedOf(name, source, dates));
    if (before?.compared === after?.compared) return [];
    return [`${name} ${before?.text ?? 'not stated'} and ${after?.text ?? 'not stated'}`];
  });
}

interface Stated {
  text: string;
  compared: string;
}

/** A condition of a capture: as it is printed, and in a form that is equal however it is written. */
function statedOf(
  name: string,
  { capture: { data, log } }: ComparedSource,
  dates: ReadonlyMap<string, string>,
): Stated | null {
  const same = (text: string | undefined) => (text === undefined ? null : { text, compared: text });
  if (name === 'load' && data.load !== undefined) return same(quantityText(data.load, 'Ω'));
  if (name === 'date') return same(dates.get(log));
  if (name === 'instrument') return same(data.instrument);
  const text = Object.hasOwn(data.conditions, name) ? data.conditions[name] : undefined;
  return text === undefined ? null : { text, compared: inSi(text) };
}

const dimensions: readonly Dimension[] = ['power', 'voltage', 'current', 'frequency', 'temperature', 'level'];

function inSi(text: string): string {
  for (const dimension of dimensions) {
    const reading = parseQuantity(text, dimension);
    if ('quantity' in reading) return `${reading.quantity.value} ${reading.quantity.unit}`;
  }
  return text.trim();
}

/** Channels of one capture that carry two alternatives, with no other capture that has them the other way round. */
export function controlProblems(
  { data, yaml }: RawRecord<ComparisonData>,
  [one, other]: readonly [ComparedAlternative, ComparedAlternative],
): Problem[] {
  return unexchanged(one, other).map(({ capture }) => {
    const place = yaml.placeOf(['alternatives', data.alternatives.indexOf(other.data), 'captures']);
    return problemAt(place, messages.notExchanged(capture.id, one.data.id, other.data.id));
  });
}

/** Sources of the second alternative that share a capture with the first, without the exchanged control. */
export function unexchanged(one: ComparedAlternative, other: ComparedAlternative): ComparedSource[] {
  const together = other.sources.flatMap((second) =>
    one.sources.filter(({ capture }) => capture.id === second.capture.id).map((first) => ({ first, second })),
  );
  return together
    .filter(
      ({ first, second }) =>
        !together.some(
          (control) => control.first.channel === second.channel && control.second.channel === first.channel,
        ),
    )
    .map(({ second }) => second);
}
