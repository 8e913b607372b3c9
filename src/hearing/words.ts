import { quantityText } from '../quantity/index.ts';
import { highestPlayedHz, type NotHeard, type Profile } from './profile.ts';

/** Why a channel has nothing to play, as a sentence after its name. */
export const absentText: Readonly<Record<NotHeard['absent'], string>> = {
  'no tone': 'there is nothing to play, as no steady tone was found.',
  'tones too far apart':
    'there is nothing to play, as the two tones are too far apart for what is heard well.',
  'no line': 'there is nothing to compare, as no line that can be played was told from noise.',
};

/** What is played of a channel and what is left out, each with its reason. */
export function profileText(profile: Profile): string[] {
  const { undetected, spoilt, tooHigh } = profile;
  const band = quantityText(highestPlayedHz, 'Hz', 2);
  return [
    `${toneText(profile)} Beside it: the same with ${linesText(profile.played)}, each with its level and phase.`,
    leftOut(undetected, 'as noise alone could have given them'),
    leftOut(spoilt, 'as sampling may have folded other lines onto them'),
    leftOut(tooHigh, `as they would lie above ${band}`),
  ].filter((sentence) => sentence !== null);
}

function toneText({ tonesHz, playedHz }: Profile): string {
  const measured = tonesText(tonesHz);
  const kind = tonesHz.length === 1 ? 'A sine' : 'Two tones';
  if (tonesHz[0] === playedHz[0]) return `${kind} of ${measured}.`;
  return `${kind} of ${tonesText(playedHz)} in the place of ${measured}, beyond what is heard well: everything moves to another pitch together, the levels stay.`;
}

const tonesText = (tonesHz: readonly number[]) =>
  joined(tonesHz.map((hertz) => quantityText(hertz, 'Hz', 4))).replaceAll(
    /(\.\d*[1-9])0+(?=\u00a0)|\.0+(?=\u00a0)/g,
    '$1',
  );

/** Lines by name: "harmonics 2, 3 and 5 to 8", or the combinations of two tones. */
export function linesText(names: readonly string[]): string {
  if (names.some((name) => !/^\d+$/.test(name))) return joined(names);
  return `${names.length === 1 ? 'harmonic' : 'harmonics'} ${joined(runs(names.map(Number)))}`;
}

function leftOut(names: readonly string[], reason: string): string | null {
  if (names.length === 0) return null;
  return `Left out, ${reason}: ${linesText(names)}.`;
}

/** Three or more numbers in a row as "5 to 8". */
function runs(orders: readonly number[]): string[] {
  const found: [number, number][] = [];
  for (const order of orders) {
    const last = found.at(-1);
    if (last && order === last[1] + 1) last[1] = order;
    else found.push([order, order]);
  }
  return found.flatMap(([from, to]) => {
    if (to === from) return [String(from)];
    return to === from + 1 ? [String(from), String(to)] : [`${from} to ${to}`];
  });
}

const joined = (items: readonly string[]) =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`;
