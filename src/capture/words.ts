import { longestHeader } from './limits.ts';
import type { ChannelRole, ColumnQuantity } from './types.ts';

/** What the words of a header say about a column. */
export interface Meaning {
  quantity: ColumnQuantity;
  /** Order of a harmonic. */
  order?: number;
}

/** Lower case, with everything but letters, digits, plus and per cent as one space: "THD+N", "v_in" → "v in". */
export function plainWords(text: string): string {
  return text
    .slice(0, longestHeader)
    .replace(/([a-z])([A-Z][a-z])/g, '$1 $2')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}+%#]+/gu, ' ')
    .trim();
}

/** Trade terms in the order in which they are looked for: the special before the general. */
const meanings: readonly [RegExp, ColumnQuantity][] = [
  [
    /\bthd ?(?:\+|plus|and) ?n(?:oise)?\b|\bthd ?n\b|total harmonic distortion (?:\+|plus|and) noise/,
    'thd-plus-noise',
  ],
  [/\bthd\b|total harmonic distortion/, 'thd'],
  [/\bgain\b|\bamplification\b/, 'gain'],
  [/\bphase\b/, 'phase'],
  [/\btemp(?:erature)?\b/, 'temperature'],
  [/\bimpedance\b|\bresistance\b|^z\b/, 'impedance'],
  [/\bresponse\b|\blevel\b|\bamplitude\b|\bmagnitude\b/, 'level'],
  [/\bfreq(?:uency)?\b|^f$|^hz$/, 'frequency'],
  [/\btime\b|\btimestamp\b|^t\d?\b/, 'time'],
  [/^(?:n|no|nr|#|index|samples?|points?|row|seq(?:uence)?)(?: (?:index|number|no|nr|count|#))?$/, 'index'],
  [/\bpower\b|^p\b|\bwatts?\b/, 'power'],
  [/\bvolt(?:s|age)?\b|^[vu]\d?\b|\bv(?:in|out)\b|^[vu](?:[apgs]k?|g[12]k?)\b/, 'voltage'],
  [/\bcurrent\b|\bamps?\b|\bamperes?\b|^i (?=.)|^i(?:[apgsk]|g[12])\b/, 'current'],
];

/** What a header means, or null where its words leave it open. */
export function meaningOf(label: string): Meaning | null {
  const words = plainWords(label);
  const order = harmonicOrder(words);
  if (order !== null) return { quantity: 'harmonic', order };
  const found = meanings.find(([pattern]) => pattern.test(words));
  return found ? levelled(words, found[1]) : null;
}

/** "Output voltage level" is a voltage: the general word gives way to the one that names the quantity. */
function levelled(words: string, quantity: ColumnQuantity): Meaning {
  if (quantity !== 'level') return { quantity };
  const exact = (['power', 'voltage', 'current'] as const).find((name) => words.split(' ').includes(name));
  return { quantity: exact ?? 'level' };
}

const ordinals = ['second', 'third', 'fourth', 'fifth', 'sixth', 'seventh', 'eighth', 'ninth', 'tenth'];

/** Order named as "H3", "HD3", "3rd harmonic", "third harmonic", "harmonic 3" or "3rd". */
function harmonicOrder(words: string): number | null {
  const digits =
    /\bhd? ?(\d{1,2})\b/.exec(words) ??
    /\b(\d{1,2})(?:st|nd|rd|th)? (?:order )?harmonic\b/.exec(words) ??
    /\bharmonic ?(\d{1,2})\b/.exec(words) ??
    /^(\d{1,2})(?:st|nd|rd|th)$/.exec(words);
  if (digits) return Number(digits[1]);
  const spelt = /\b(\w+) (?:order )?harmonic\b/.exec(words)?.[1] ?? '';
  const at = ordinals.indexOf(spelt);
  return at < 0 ? null : at + 2;
}

const roleWords: Readonly<Record<ChannelRole, ReadonlySet<string>>> = {
  stimulus: new Set(['in', 'input', 'vin', 'stimulus', 'generator', 'drive']),
  response: new Set(['out', 'output', 'vout', 'pout', 'response']),
};

/** The part a channel plays, where its name says so and says nothing else. */
export function roleOf(label: string): ChannelRole | undefined {
  const words = plainWords(label).split(' ');
  const isStimulus = words.some((word) => roleWords.stimulus.has(word));
  const isResponse = words.some((word) => roleWords.response.has(word));
  if (isStimulus === isResponse) return undefined;
  return isStimulus ? 'stimulus' : 'response';
}

/** The words of a label that name a channel: what is left of "CH1 THD" or "Output phase". */
export function ownerOf(label: string): string {
  const general =
    /\b(?:thd|n|noise|plus|and|total|harmonic|distortion|gain|phase|level|amplitude|magnitude|response|voltage|current|power|impedance|\d+(?:st|nd|rd|th)|hd?\d+)\b|[+%]/g;
  return plainWords(label).replace(general, ' ').replace(/ +/g, ' ').trim();
}

/** True where the words name an electrode voltage or current of a tube. */
export function electrodeOf(label: string): 'plate' | 'grid' | 'screen' | null {
  const words = plainWords(label);
  if (/\b(?:screen|g2|vg2|ig2)\b/.test(words)) return 'screen';
  if (/\b(?:grid|g1|vg1?|ugk?|vgk)\b/.test(words)) return 'grid';
  if (/\b(?:plate|anode|[vui][ap]k?)\b/.test(words)) return 'plate';
  return null;
}
