import { foundText } from '../../compare/index.ts';
import { type Problem, problemAt } from '../../problem/index.ts';
import { idOf } from '../files.ts';
import type { RawRecord } from '../records.ts';
import type { DecisionData } from '../schemas/index.ts';
import type { Decision, JudgedClaim, Prose } from '../types.ts';
import { claimMessages } from './claim-messages.ts';
import { type ClaimContext, judgeClaims } from './claims.ts';
import { decisionMessages as messages } from './decision-messages.ts';

type RawDecision = RawRecord<DecisionData>;

const numberOf = (id: string): string | null => /^decisions\/(\d{4})-./.exec(id)?.[1] ?? null;

/** Checks that every decision has a number of its own, and that none is replaced by itself in the end. */
export function checkDecisions(decisions: readonly RawDecision[]): Problem[] {
  return [...decisions.flatMap((one) => numberFaults(one, decisions)), ...circles(decisions)];
}

function numberFaults({ id, file }: RawDecision, decisions: readonly RawDecision[]): Problem[] {
  const number = numberOf(id);
  const place = { file, line: 1, column: 1 };
  if (number === null) return [problemAt(place, messages.noNumber())];
  const first = decisions.find((other) => numberOf(other.id) === number);
  return first && idOf(first.file) !== id ? [problemAt(place, messages.numberTwice(number, first.id))] : [];
}

/** Each circle is told once, at its smallest id. */
function circles(decisions: readonly RawDecision[]): Problem[] {
  const byId = new Map(decisions.map((decision) => [decision.id, decision]));
  return decisions.flatMap(({ id, yaml, data }) => {
    const chain = [id];
    let next = data.replacedBy;
    while (next !== undefined && !chain.includes(next)) {
      chain.push(next);
      next = byId.get(next)?.data.replacedBy;
    }
    const isSmallest = next === id && chain.every((other) => id <= other);
    return isSmallest ? [problemAt(yaml.placeOf(['replacedBy']), messages.circle([...chain, id]))] : [];
  });
}

/** Joins a decision with what its claims say today; evidence of one in force that fails is a problem at its line. */
export function resolveDecision(
  record: RawDecision,
  prose: Prose,
  context: ClaimContext & { strict: boolean },
): { decision: Decision; problems: Problem[] } {
  const { id, file, data } = record;
  const expectations = judgeClaims({ record, key: 'expectations', claims: data.expectations }, context);
  const evidence = judgeClaims({ record, key: 'evidence', claims: data.evidence }, context);
  const failing = data.state === 'decided' ? evidence.claims.filter((claim) => !claim.isBorneOut) : [];
  const decision: Decision = {
    ...{ id, file, data, prose, number: numberOf(id) ?? '' },
    ...{ expectations: expectations.claims, evidence: evidence.claims, isBroken: failing.length > 0 },
  };
  const broken = failing.map((claim) => brokenProblem(record, claim, context.strict));
  return { decision, problems: [...expectations.problems, ...evidence.problems, ...broken] };
}

function brokenProblem({ data, yaml }: RawDecision, claim: JudgedClaim, strict: boolean): Problem {
  const { says } = claim.data;
  const { outcome } = claim.judgement;
  const place = yaml.placeOf(['evidence', data.evidence.indexOf(claim.data)]);
  return problemAt(place, claimMessages.broken(says, outcome, foundText(claim.judgement), strict));
}
