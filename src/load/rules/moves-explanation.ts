import { quantityText } from '../../quantity/index.ts';
import type { Candidate, RuleMove } from '../types.ts';

/** A rule with how far it moves. */
interface Moved extends RuleMove {
  method: string;
}

/** How far the rules move with a tenth more voltage and with a tenth more current; empty where too few are known. */
export function explainMoves(rules: readonly Candidate[]): string[] {
  const by = (of: 'voltage' | 'current'): Moved[] =>
    rules.flatMap(({ method, moves }) => {
      const move = moves[of];
      return move ? [{ method, ...move }] : [];
    });
  return [
    ...told('With 10 % more voltage at rest and the same current', by('voltage')),
    ...told('With 10 % more current at rest and the same voltage', by('current')),
  ];
}

function told(when: string, moved: readonly Moved[]): string[] {
  if (moved.length < 2) return [];
  const sorted = moved.toSorted((a, b) => a.relative - b.relative);
  const up = sorted.filter(({ relative }) => relative >= notable).at(-1);
  const down = sorted.filter(({ relative }) => relative <= -notable)[0];
  const still = moved.filter(({ relative }) => Math.abs(relative) < notable).length;
  const rest = still === 0 ? '' : `; ${still === 1 ? 'one hardly moves' : `${still} hardly move`}`;
  const ends = [...(up ? [farthest(up, 'more')] : []), ...(down ? [farthest(down, 'less')] : [])];
  const parted = up && down ? 'the rules part, and ask' : 'the rules ask';
  return ends.length === 0
    ? [`${when} no rule moves much.`]
    : [`${when} ${parted} for up to ${ends.join(', and up to ')}${rest}.`];
}

/** What moves less is not worth a word. */
const notable = 5e-3;

const farthest = ({ relative, ohm, method }: Moved, way: 'more' | 'less') =>
  `${quantityText(100 * Math.abs(relative), '%', 2)} ${way}, ${quantityText(Math.abs(ohm), 'Ω')} (${method})`;
