import { noLoadThere } from '../messages.ts';
import type { Candidate, RuleMove, RuleMoves } from '../types.ts';
import type { LoadRow } from './proposal.ts';
import type { RuleStage } from './rule-stage.ts';
import type { Rule } from './rules.ts';
import type { Varied } from './varied-rest.ts';

/** A stage as it is, and with one condition 10 % up; null where it finds no rest there. */
export type VariedStages = { here: RuleStage } & Record<Varied, RuleStage | null>;

/** Loads within a sixteenth of an octave count as the same: half a step of the sweep. */
const sameOctaves = 1 / 16;

/** What the model gives at the loads of some rules, where that lands beside the largest power, and how far they move. */
export function landed(rules: readonly Rule[], stages: VariedStages, sweep: readonly LoadRow[]): Candidate[] {
  const most = sweep.reduce<LoadRow | null>(
    (best, row) => (best && best.powerW >= row.powerW ? best : row),
    null,
  );
  const atEnd = most === sweep[0] || most === sweep.at(-1);
  return rules.map((rule) => {
    const { proposal } = rule;
    const row = proposal.loadOhm === null ? null : (rule.outcome ?? stages.here.rowAt(proposal.loadOhm));
    return {
      ...proposal,
      powerW: row?.powerW ?? null,
      secondRatio: row?.secondRatio ?? null,
      thirdRatio: row?.thirdRatio ?? null,
      thdRatio: row?.thdRatio ?? null,
      fromMostPowerDb: row && most ? 10 * Math.log10(row.powerW / most.powerW) : null,
      side: proposal.loadOhm === null || !most || atEnd ? null : sideOf(proposal.loadOhm, most.loadOhm),
      moves: movesOf(rule, stages),
    };
  });
}

function sideOf(loadOhm: number, mostOhm: number): Candidate['side'] {
  const octaves = Math.log2(loadOhm / mostOhm);
  if (Math.abs(octaves) <= sameOctaves) return 'at';
  return octaves < 0 ? 'below' : 'above';
}

function movesOf(
  { proposal: { loadOhm }, follow }: Rule,
  { here, voltage, current }: VariedStages,
): RuleMoves {
  const fromOhm = loadOhm === null ? null : follow(here);
  const move = (stage: RuleStage | null): RuleMove | null => {
    const toOhm = stage && follow(stage);
    if (loadOhm === null || fromOhm === null || toOhm === null) return null;
    const relative = toOhm / fromOhm - 1;
    return { ohm: relative * loadOhm, relative };
  };
  const moves = { voltage: move(voltage), current: move(current) };
  const missing = loadOhm !== null && (moves.voltage === null || moves.current === null);
  return missing ? { ...moves, absent: noLoadThere() } : moves;
}
