import type { Candidate, RuleMove, StageSheet } from '../../load/index.ts';
import { printDecimals, quantityText } from '../../quantity/index.ts';

/** A rule of load with what it gives here, printed; the figures are empty where it has no load. */
export interface CandidateRow {
  method: string;
  /** Id of the part record of a transformer. */
  part: string | null;
  load: string;
  power: string;
  thd: string;
  second: string;
  third: string;
  /** Power beside the largest, and on which side of its load: "−0.35 dB, above". */
  besideMost: string;
  basis: string;
  status: Candidate['status'];
}

/** How far a rule goes when the point of rest moves, printed: "+13 %, +343 Ω". */
export interface MoveRow {
  method: string;
  load: string;
  voltage: string;
  current: string;
}

const none = '';
const sides = { below: 'below', at: 'at it', above: 'above' } as const;

export const candidatesOf = (stage: StageSheet): readonly Candidate[] =>
  'candidates' in stage ? stage.candidates : [];

export function candidateRow(candidate: Candidate): CandidateRow {
  const { method, part, loadOhm, powerW, basis, status, fromMostPowerDb, side } = candidate;
  const decibels = fromMostPowerDb === null ? none : `${printDecimals(fromMostPowerDb, 2)}\u00a0dB`;
  return {
    ...{ method, part, basis, status },
    load: loadOhm === null ? 'none' : quantityText(loadOhm, 'Ω'),
    power: powerW === null ? none : quantityText(powerW, 'W'),
    thd: percent(candidate.thdRatio),
    second: percent(candidate.secondRatio),
    third: percent(candidate.thirdRatio),
    besideMost: [decibels, side === null ? none : sides[side]].filter((text) => text !== none).join(', '),
  };
}

/** The rules that have a load; a transformer at hand does not move. */
export function moveRows(candidates: readonly Candidate[]): MoveRow[] {
  return candidates.flatMap(({ method, part, loadOhm, moves }) =>
    part !== null || loadOhm === null
      ? []
      : [
          {
            method,
            load: quantityText(loadOhm, 'Ω'),
            voltage: moveText(moves.voltage),
            current: moveText(moves.current),
          },
        ],
  );
}

/** Why moves are missing, each reason once. */
export const missingMoves = (candidates: readonly Candidate[]): string[] => [
  ...new Set(candidates.flatMap(({ moves }) => moves.absent ?? [])),
];

/** What is less rounds to nothing. */
const notable = 5e-4;

function moveText(move: RuleMove | null): string {
  if (!move) return 'not found';
  if (Math.abs(move.relative) < notable) return 'stays';
  return `${signed(100 * move.relative, '%')}, ${signed(move.ohm, 'Ω')}`;
}

function signed(value: number, unit: string): string {
  const text = quantityText(value, unit, 2);
  return value > 0 ? `+${text}` : text;
}

const percent = (ratio: number | null) => (ratio === null ? none : quantityText(100 * ratio, '%', 2));
